import type { CalibrationList, ListedCalibration } from "../../api/kept-calibrations.ts";
import { fillText } from "../../present/fill.ts";
import { writeAddress } from "../address.ts";
import { counted } from "../counted.ts";
import { html, redraw, type Child } from "../draw/node.ts";
import type { Follow } from "../files-room.ts";
import { speech } from "../language.ts";
import { words as pageWords } from "../later-words.ts";
import { matches, when } from "../library/listing.ts";
import { lacking } from "../permission.ts";
import { bringBackCalibration, listCalibrations, listRemovedCalibrations, removeCalibration } from "./kept-api.ts";

const words = pageWords.calibrationRoom;

/** The calibrations that are kept: found, opened, removed and put back. */
export function createKeptList({ fail }: Follow): {
  readonly element: HTMLElement;
  /** Asks for the list anew. */
  readonly refresh: () => Promise<void>;
  /** Removes one, and says so with the way back. @returns whether it was removed */
  readonly remove: (one: Pick<ListedCalibration, "id" | "name">) => Promise<boolean>;
} {
  const search = html("input", {
    type: "search",
    id: "find-calibration",
    autocomplete: "off",
    spellcheck: "false",
    oninput: () => draw(),
  });
  const found = html("p", { class: "note", id: "calibrations-found", role: "status" });
  const list = html("div", {});
  const undo = html("div", { role: "status" });
  const removed = html("div", { id: "removed-calibrations-list" });
  const fold = html(
    "details",
    { class: "removed-runs", id: "removed-calibrations", ontoggle: () => void refreshRemoved() },
    html("summary", { id: "removed-calibrations-summary" }, words.removedOnes),
    html("p", { class: "note" }, words.removedNote),
    lacking("administer"),
    removed,
  );
  let kept: CalibrationList | null = null;
  /** Counts what was asked: an earlier answer is left. */
  let asked = 0;

  const refresh = async (): Promise<void> => {
    const mine = (asked += 1);
    try {
      const answer = await listCalibrations();
      if (mine !== asked) return;
      kept = answer;
      draw();
      await refreshRemoved();
    } catch (error) {
      if (mine === asked) fail(words.notListed, error);
    }
  };

  const refreshRemoved = async (): Promise<void> => {
    if (!fold.open) return;
    try {
      const gone = await listRemovedCalibrations();
      redraw(removed, () =>
        removed.replaceChildren(
          gone.length === 0
            ? html("p", { class: "note" }, words.noneRemoved)
            : html(
                "ul",
                {},
                gone.map((one) =>
                  html("li", {}, html("p", {}, one.name, html("span", { class: "note" }, about(one))), putBack(one)),
                ),
              ),
        ),
      );
    } catch (error) {
      fail(words.notListed, error);
    }
  };

  const draw = (): void => {
    if (kept === null) return;
    const all = kept;
    const rows = all.filter(({ name, note, laboratory, instruments }) =>
      matches(search.value, [name, note, laboratory, ...instruments.map(({ id }) => id)]),
    );
    const n = speech.numbers.whole(rows.length);
    found.textContent =
      search.value.trim() === ""
        ? fillText(words.inAll, { n })
        : fillText(words.found, { n, all: speech.numbers.whole(all.length) });
    redraw(list, () =>
      list.replaceChildren(
        rows.length === 0
          ? html("p", { id: "no-calibrations" }, all.length === 0 ? words.noneKept : words.noneFound)
          : html(
              "ul",
              { class: "surveys", id: "kept-calibrations" },
              rows.map((one) => html("li", {}, itemOf(one))),
            ),
      ),
    );
  };

  const itemOf = (one: ListedCalibration): Child => [
    html("a", { href: writeAddress({ kind: "calibration", id: one.id }), id: `kept-calibration-${one.id}` }, one.name),
    html("span", { class: "note" }, about(one)),
    one.note === null ? null : html("span", { class: "remark" }, one.note),
    html(
      "button",
      {
        type: "button",
        class: "quiet small",
        id: `remove-calibration-${one.id}`,
        "data-needs": "administer",
        "aria-label": fillText(words.removeOne, { name: one.name }),
        onclick: () => void remove(one),
      },
      words.remove,
    ),
  ];

  const putBack = (one: ListedCalibration): HTMLElement =>
    html(
      "button",
      {
        type: "button",
        class: "quiet",
        id: `put-back-calibration-${one.id}`,
        "data-needs": "administer",
        "aria-label": fillText(words.putBackOne, { name: one.name }),
        onclick: () => void bringBack(one, "removed-calibrations-summary"),
      },
      words.putBack,
    );

  const bringBack = async ({ id, name }: Pick<ListedCalibration, "id" | "name">, focus: string): Promise<void> => {
    try {
      await bringBackCalibration(id);
      undo.replaceChildren(html("p", {}, fillText(words.back, { name })));
      await refresh();
      // The button that was pressed is gone: the keyboard goes where it is wanted.
      document.getElementById(focus)?.focus();
    } catch (error) {
      fail(words.notBack, error);
    }
  };

  const remove = async (one: Pick<ListedCalibration, "id" | "name">): Promise<boolean> => {
    try {
      await removeCalibration(one.id);
    } catch (error) {
      fail(words.notRemoved, error);
      return false;
    }
    const back = html(
      "button",
      {
        type: "button",
        class: "quiet",
        id: "undo-calibration-removal",
        onclick: () => void bringBack(one, `kept-calibration-${one.id}`),
      },
      words.undo,
    );
    undo.replaceChildren(
      html("p", { class: "buttons" }, html("strong", {}, fillText(words.removed, { name: one.name })), back),
    );
    await refresh();
    back.focus();
    return true;
  };

  const element = html(
    "section",
    { class: "panel kept-calibrations", "aria-labelledby": "kept-calibrations-title" },
    html("h2", { id: "kept-calibrations-title" }, words.kept),
    undo,
    html("p", { class: "find" }, html("label", { for: "find-calibration" }, words.find), search, found),
    list,
    fold,
  );
  return { element, refresh, remove };
}

/** How many points, which instruments, whether all are run, and when it was changed. */
function about({ points, instruments, changed }: ListedCalibration): string {
  const listed = fillText(words.listed, {
    points: counted(words.points, points),
    instruments: speech.numbers.list(instruments.map(({ id }) => id)),
    when: when(changed),
  });
  return instruments.every(({ run }) => run !== null) ? listed : `${listed}; ${words.runsLeft}`;
}
