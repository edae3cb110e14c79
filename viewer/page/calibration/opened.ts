import type { PreparedCalibration } from "../../api/calibrations.ts";
import type { KeptCalibration } from "../../api/kept-calibrations.ts";
import { writeAddress } from "../address.ts";
import { calibrationFound, readRun, RequestError, startRun } from "../api.ts";
import { html, type Child } from "../draw/node.ts";
import { filesRead, type Follow } from "../files-room.ts";
import { messages, speech } from "../language.ts";
import { words as pageWords } from "../later-words.ts";
import { fillText } from "../../present/fill.ts";
import { endOf } from "./followed-run.ts";
import { certificateFieldsForm } from "./fields-form.ts";
import { changeCalibration, keepCalibration, nameCalibration, setRunOf } from "./kept-api.ts";
import { namingForm } from "./naming-form.ts";
import { certificatePart, instrumentResult, partId } from "./result.ts";
import { keepTypedFields, typedFieldsOf } from "./typed-fields.ts";

const words = pageWords.calibrationRoom;

/** What an opened calibration asks of the room. */
export interface Room extends Follow {
  readonly remove: (one: Pick<KeptCalibration, "id" | "name">) => void;
  /** Runs were started, or have ended. */
  readonly ran: () => void;
}

/** A calibration that is open: run, its results shown, its certificates' fields filled in; kept once it is run. */
export interface OpenedCalibration {
  readonly element: HTMLElement;
  /** Id that it is kept under; `null` until then. */
  readonly id: () => string | null;
  /** Shows what its runs found, and waits for those that go on. */
  readonly goOn: () => Promise<void>;
  /** Another one was opened: what is still answered is left. */
  readonly leave: () => void;
}

/** @param from what was read of files, or is kept */
export function openCalibration(from: PreparedCalibration | KeptCalibration, room: Room): OpenedCalibration {
  let kept = "prepared" in from ? from : null;
  let prepared = "prepared" in from ? from.prepared : from;
  /** Whether something else was opened meanwhile. */
  let left = false;
  const { fail } = room;
  const say = (text: string): void => {
    if (!left) room.say(text);
  };
  const follow: Follow = {
    say,
    fail: (title, error) => {
      if (!left) fail(title, error);
    },
  };
  const runs = new Map<string, string>();
  const results = html("div", {});
  const title = html("h2", { id: "calibration-title", tabindex: -1 });
  const note = html("p", { class: "remark", id: "calibration-remark" });
  const tools = html("div", {});
  const fields = html("div", {});
  const run = html("button", {
    type: "button",
    id: "run-calibration",
    class: "primary",
    "data-needs": "run",
    onclick: () => void carryOut(true),
  });

  const drawHead = (): void => {
    title.textContent = kept?.name ?? prepared.title;
    note.textContent = kept?.note ?? "";
    note.hidden = note.textContent === "";
  };

  const drawTools = (): void => {
    if (kept === null) return tools.replaceChildren();
    const own = kept;
    tools.replaceChildren(
      html("p", { class: "note" }, words.keptNote),
      html(
        "p",
        { class: "downloads" },
        html("a", { href: writeAddress({ kind: "calibration", id: null }), id: "all-calibrations" }, words.all),
        html(
          "button",
          {
            type: "button",
            class: "quiet",
            id: "remove-calibration",
            "data-needs": "administer",
            onclick: () => room.remove(kept!),
          },
          words.remove,
        ),
      ),
      namingForm(own, (name, text) => void rename(name, text)),
    );
  };

  const rename = async (name: string, text: string): Promise<void> => {
    try {
      kept = await nameCalibration(kept!.id, { name, note: text }, kept!.revision);
      drawHead();
      say(words.nameKept);
    } catch (error) {
      follow.fail(words.notNamed, error);
    }
  };

  /** Keeps it, if it is not yet: from then on it has an address. */
  const keep = async (): Promise<KeptCalibration> => {
    if (kept !== null) return kept;
    say(words.keeping);
    const { calibration, reference, overdue, files } = prepared;
    kept = await keepCalibration({ calibration, reference, overdue, files: [...files] });
    if (!left) {
      // What is on the page stays as it is; a reload or a link brings it back.
      history.pushState(null, "", writeAddress({ kind: "calibration", id: kept.id }));
      drawTools();
    }
    return kept;
  };

  /** The run of an instrument's study: that which is kept, or, if wanted, a new one; `null` if there is none. */
  const runOf = async (instrument: string, study: object, wanted: boolean): Promise<string | null> => {
    const before = kept?.instruments.find(({ id }) => id === instrument)?.run ?? null;
    if (before !== null) {
      try {
        const { state } = await readRun(before);
        if (state !== "failed" && state !== "cancelled") return before;
        if (!wanted) return before;
      } catch (error) {
        // Removed from the list of runs, or lost: another one takes its place if the reader wants it.
        if (!(error instanceof RequestError) || error.status !== 404) throw error;
        if (!wanted) {
          follow.fail(words.notRun, new Error(fillText(words.runGone, { instrument })));
          return null;
        }
      }
    }
    if (!wanted) return null;
    const { id } = await startRun(study);
    kept = await setRunOf(kept!.id, instrument, id);
    room.ran();
    return id;
  };

  /** Shows what each instrument's run found. @param wanted whether those that have none are run */
  const carryOut = async (wanted: boolean): Promise<void> => {
    run.disabled = true;
    results.replaceChildren();
    fields.replaceChildren();
    runs.clear();
    let last: string | null = null;
    try {
      if (wanted) await keep();
      for (const { id: instrument, study } of prepared.instruments) {
        say(fillText(words.waiting, { instrument }));
        const id = await runOf(instrument, study, wanted);
        if (left) return;
        if (id === null) continue;
        const ended = await endOf(id, (share) =>
          say(fillText(words.running, { instrument, percent: speech.numbers.percent(share, 0) })),
        );
        if (left) return;
        if (ended.state !== "finished") {
          last = fillText(words.failed, { instrument, reason: ended.error?.message ?? ended.state });
          continue;
        }
        const { calibration, reference } = prepared;
        const found = await calibrationFound({ calibration, reference, instrument, run: id });
        if (left) return;
        runs.set(instrument, id);
        const width = Math.max(300, Math.min(900, results.clientWidth || 660));
        results.append(instrumentResult(prepared, instrument, id, found, width, follow));
      }
      if (runs.size > 0) drawFields();
      if (last !== null) follow.fail(words.notRun, new Error(last));
      else if (runs.size === prepared.instruments.length) say(words.done);
    } catch (error) {
      follow.fail(words.notRun, error);
    } finally {
      if (wanted) room.ran();
      run.disabled = false;
      drawRun();
    }
  };

  const drawRun = (): void => {
    run.textContent =
      kept === null || kept.instruments.every(({ run: one }) => one === null) ? words.start : words.goOn;
    run.hidden = runs.size === prepared.instruments.length;
  };

  /** The form of the certificates' fields; what is taken there is kept, and in every certificate made from then on. */
  const drawFields = (): void => {
    const id = kept!.id;
    const typed = typedFieldsOf(id);
    fields.replaceChildren(
      ...(typed === null ? [] : [html("p", { class: "note", role: "status" }, words.typedAgain)]),
      certificateFieldsForm(prepared.calibration, typed, {
        typed: (values) => keepTypedFields(id, values),
        taken: (calibration) => void takeFields(calibration),
      }),
    );
  };

  const takeFields = async (calibration: PreparedCalibration["calibration"]): Promise<void> => {
    try {
      const { reference } = prepared;
      const found = new Map<string, Parameters<typeof certificatePart>[3]>();
      for (const [instrument, one] of runs)
        found.set(instrument, await calibrationFound({ calibration, reference, instrument, run: one }));
      kept = await changeCalibration(kept!.id, calibration, kept!.revision);
      keepTypedFields(kept.id, null);
      prepared = kept.prepared;
      if (left) return;
      for (const [instrument, one] of runs)
        document
          .getElementById(`${partId(prepared, instrument)}-certificate-part`)
          ?.replaceWith(certificatePart(prepared, instrument, one, found.get(instrument)!, follow));
      say(words.fieldsTaken);
    } catch (error) {
      follow.fail(words.notTaken, error);
    }
  };

  const { laboratory, overdue, files } = prepared;
  const warned: Child =
    overdue === null ? null : html("p", { lang: "en" }, fillText(messages.calibration.overdue, { warning: overdue }));
  const element = html(
    "div",
    {},
    title,
    laboratory === null ? null : html("p", { class: "laboratory" }, laboratory),
    note,
    warned,
    tools,
    filesRead(words.files, files),
    html("p", {}, run),
    results,
    fields,
  );
  drawHead();
  drawTools();
  drawRun();
  return {
    element,
    id: () => kept?.id ?? null,
    goOn: () => carryOut(false),
    leave: () => {
      left = true;
    },
  };
}
