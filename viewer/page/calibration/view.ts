import type { PreparedCalibration } from "../../api/calibrations.ts";
import type { KeptCalibration } from "../../api/kept-calibrations.ts";
import { writeAddress } from "../address.ts";
import { exampleCalibration, sendCalibration } from "../api.ts";
import { html } from "../draw/node.ts";
import { createProgress, filesChooser } from "../files-room.ts";
import { speech, words as firstWords } from "../language.ts";
import { words as pageWords } from "../later-words.ts";
import { fillText } from "../../present/fill.ts";
import { readKeptCalibration } from "./kept-api.ts";
import { createKeptList } from "./kept-list.ts";
import { openCalibration, type OpenedCalibration } from "./opened.ts";

const words = pageWords.calibrationRoom;

/** What the address asks for: one that is kept, or the list. */
interface Asked {
  readonly id: string | null;
}

/**
 * The room of calibrations: opens one with its files, runs it, shows what it found, hands out the certificates, keeps it.
 *
 * @param ran is told that runs were started or have ended: lists of runs are then no longer up to date
 */
export function createCalibration(ran: () => Promise<void>): { readonly show: (asked: Asked) => HTMLElement } {
  const { status, trouble, say, fail } = createProgress();
  const body = html("div", { id: "calibration-body" });
  let opened: OpenedCalibration | null = null;
  /** Counts what was opened: an answer to an earlier one is left. */
  let turn = 0;
  let shown: Asked | null = null;
  const list = createKeptList({ say, fail });

  const close = (): number => {
    opened?.leave();
    opened = null;
    shelf.hidden = false;
    return ++turn;
  };

  const offer = (from: PreparedCalibration | KeptCalibration): OpenedCalibration => {
    opened = openCalibration(from, { say, fail, remove: (one) => void remove(one), ran: () => void ran() });
    body.replaceChildren(opened.element);
    shelf.hidden = true;
    start.hidden = "prepared" in from;
    document.getElementById("calibration-title")?.focus({ preventScroll: true });
    return opened;
  };

  const open = async (said: string, ask: () => Promise<PreparedCalibration>): Promise<void> => {
    const own = close();
    say(said);
    try {
      const prepared = await ask();
      if (own !== turn) return;
      const { title, instruments, calibration } = prepared;
      offer(prepared);
      const points = Array.isArray(calibration["points"]) ? calibration["points"].length : 0;
      say(
        fillText(words.read, {
          title,
          points: speech.numbers.whole(points),
          instruments: speech.numbers.list(instruments.map(({ id }) => id)),
        }),
      );
    } catch (error) {
      if (own === turn) fail(words.notRead, error);
    }
  };

  const openKept = async (id: string): Promise<void> => {
    const own = close();
    body.replaceChildren();
    shelf.hidden = true;
    say(words.opening);
    try {
      const kept = await readKeptCalibration(id);
      if (own !== turn) return;
      const one = offer(kept);
      say(fillText(words.opened, { title: kept.name }));
      await one.goOn();
    } catch (error) {
      if (own !== turn) return;
      start.hidden = false;
      shelf.hidden = false;
      void list.refresh();
      fail(words.notOpened, error);
    }
  };

  const showList = (): void => {
    close();
    body.replaceChildren();
    say("");
    start.hidden = false;
    void list.refresh();
  };

  const remove = async (one: Pick<KeptCalibration, "id" | "name">): Promise<void> => {
    if (!(await list.remove(one))) return;
    history.pushState(null, "", writeAddress({ kind: "calibration", id: null }));
    close();
    body.replaceChildren();
    start.hidden = false;
    say("");
    document.getElementById("undo-calibration-removal")?.focus();
  };

  const start = html(
    "div",
    {},
    html("p", {}, words.intro),
    filesChooser("calibration-files", words, (chosen) => {
      void open(fillText(words.reading, { count: speech.numbers.whole(chosen.length) }), () => sendCalibration(chosen));
    }),
    html(
      "p",
      {},
      html(
        "button",
        {
          type: "button",
          class: "quiet",
          id: "example-calibration",
          onclick: () => void open(words.readingExample, exampleCalibration),
        },
        words.example,
      ),
    ),
  );
  const shelf = html("div", {}, list.element);
  const element = html(
    "div",
    { class: "calibration" },
    html(
      "header",
      { class: "sheet-head" },
      html("h1", { id: "sheet-title", tabindex: -1 }, firstWords.frame.calibration),
    ),
    start,
    status,
    trouble,
    body,
    shelf,
  );
  return {
    show: (asked) => {
      // What is drawn anew for another reason stays as it is.
      if (asked === shown) return element;
      shown = asked;
      if (asked.id === null) showList();
      else if (opened?.id() !== asked.id) void openKept(asked.id);
      return element;
    },
  };
}
