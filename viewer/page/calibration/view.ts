import type { PreparedCalibration } from "../../api/calibrations.ts";
import { calibrationFound, exampleCalibration, sendCalibration, startRun } from "../api.ts";
import { html, type Child } from "../draw/node.ts";
import { createProgress, filesChooser, filesRead, type Follow } from "../files-room.ts";
import { messages, speech, words as firstWords } from "../language.ts";
import { words as pageWords } from "../later-words.ts";
import { fillText } from "../../present/fill.ts";
import { endOf } from "./followed-run.ts";
import { certificateFieldsForm } from "./fields-form.ts";
import { certificatePart, instrumentResult, partId } from "./result.ts";

const words = pageWords.calibrationRoom;

/** The room of calibrations: opens one with its files, runs it, shows what it found and hands out the certificates. */
export function createCalibration(): { readonly show: () => HTMLElement } {
  const { status, trouble, say, fail } = createProgress();
  const body = html("div", { id: "calibration-body" });
  /** Counts what was opened: an answer to an earlier one is left. */
  let turn = 0;

  const follow: Follow = { say, fail };

  const open = async (said: string, ask: () => Promise<PreparedCalibration>): Promise<void> => {
    const own = ++turn;
    say(said);
    try {
      const prepared = await ask();
      if (own === turn) offer(prepared);
    } catch (error) {
      if (own === turn) fail(words.notRead, error);
    }
  };

  const offer = (prepared: PreparedCalibration): void => {
    const { title, laboratory, overdue, files, instruments, calibration } = prepared;
    const points = Array.isArray(calibration["points"]) ? calibration["points"].length : 0;
    const run = html(
      "button",
      { type: "button", id: "run-calibration", class: "primary", onclick: () => void carryOut(prepared, run) },
      words.start,
    );
    body.replaceChildren(
      html("h2", { id: "calibration-title", tabindex: -1 }, title),
      ...(laboratory === null ? [] : [html("p", { class: "laboratory" }, laboratory)]),
      ...(overdue === null
        ? []
        : [html("p", { lang: "en" }, fillText(messages.calibration.overdue, { warning: overdue }))]),
      filesRead(words.files, files),
      html("p", {}, run),
    );
    say(
      fillText(words.read, {
        title,
        points: speech.numbers.whole(points),
        instruments: speech.numbers.list(instruments.map(({ id }) => id)),
      }),
    );
    document.getElementById("calibration-title")?.focus({ preventScroll: true });
  };

  const carryOut = async (prepared: PreparedCalibration, button: HTMLButtonElement): Promise<void> => {
    const own = turn;
    button.disabled = true;
    const results = html("div", {});
    body.append(results);
    const runs = new Map<string, string>();
    try {
      for (const { id: instrument, study } of prepared.instruments) {
        say(fillText(words.waiting, { instrument }));
        const { id } = await startRun(study);
        const ended = await endOf(id, (share) => {
          if (own === turn) say(fillText(words.running, { instrument, percent: speech.numbers.percent(share, 0) }));
        });
        if (own !== turn) return;
        if (ended.state !== "finished") {
          fail(
            words.notRun,
            new Error(fillText(words.failed, { instrument, reason: ended.error?.message ?? ended.state })),
          );
          return;
        }
        const { calibration, reference } = prepared;
        const found = await calibrationFound({ calibration, reference, instrument, run: id });
        if (own !== turn) return;
        runs.set(instrument, id);
        const width = Math.max(300, Math.min(900, results.clientWidth || 660));
        results.append(instrumentResult(prepared, instrument, id, found, width, follow));
      }
      results.append(fieldsOf(prepared, runs, own));
      say(words.done);
    } catch (error) {
      if (own === turn) fail(words.notRun, error);
    } finally {
      button.disabled = false;
    }
  };

  /** The form of the certificates' fields; what is taken there is in every certificate made from then on. */
  const fieldsOf = (prepared: PreparedCalibration, runs: ReadonlyMap<string, string>, own: number): HTMLElement =>
    certificateFieldsForm(prepared.calibration, (calibration) => {
      void (async () => {
        try {
          const next = { ...prepared, calibration };
          const { reference } = prepared;
          const parts: (readonly [string, HTMLElement])[] = [];
          for (const [instrument, run] of runs) {
            const found = await calibrationFound({ calibration, reference, instrument, run });
            parts.push([
              `${partId(next, instrument)}-certificate-part`,
              certificatePart(next, instrument, run, found, follow),
            ]);
          }
          if (own !== turn) return;
          for (const [place, part] of parts) document.getElementById(place)?.replaceWith(part);
          say(words.fieldsTaken);
        } catch (error) {
          if (own === turn) fail(words.notTaken, error);
        }
      })();
    });

  const start: Child[] = [
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
  ];
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
  );
  return { show: () => element };
}
