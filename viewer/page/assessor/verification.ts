import type { RunRecord } from "../../../engine/index.ts";
import type { VerificationEvent, VerificationOutcome } from "../../api/records.ts";
import { fillText } from "../../present/fill.ts";
import { whole } from "../numbers.ts";
import { placeLabel } from "../../present/record-place.ts";
import { RequestError } from "../api.ts";
import { html, type Child } from "../draw/node.ts";
import { labelNodes } from "../draw/symbol.ts";
import { messages, words } from "../language.ts";
import { postedEvents } from "../posted-events.ts";

const said = words.assessor;

/**
 * A verification on the page: begun by a button, told as it goes, and its outcome.
 *
 * @param text the record's file, byte for byte
 */
export function createVerification(text: string, record: RunRecord): HTMLElement {
  const status = html("p", { class: "note", role: "status", id: "verify-status" });
  const bar = html("progress", { "aria-label": said.progress, max: 1, hidden: true, id: "verify-progress" });
  const result = html("div", { id: "verify-outcome" });
  let abort: AbortController | null = null;
  const start = html(
    "button",
    { type: "button", class: "main", id: "verify-record", "data-needs": "run", onclick: () => void run() },
    said.verify,
  );
  const stop = html(
    "button",
    { type: "button", class: "quiet", id: "verify-stop", hidden: true, onclick: () => abort?.abort() },
    said.stop,
  );

  const run = async (): Promise<void> => {
    if (abort !== null) return;
    const mine = (abort = new AbortController());
    result.replaceChildren();
    status.classList.remove("unseen");
    status.textContent = said.waiting;
    bar.hidden = stop.hidden = false;
    bar.removeAttribute("value");
    stop.focus();
    start.hidden = true;
    try {
      const request = { body: text, headers: { "content-type": "application/octet-stream" }, signal: mine.signal };
      for await (const event of postedEvents<VerificationEvent>("api/records/verification", request, said.lost)) {
        if (event.type === "progress") {
          bar.value = event.limit > 0 ? Math.min(1, event.trials / event.limit) : 0;
          status.textContent = progressText(event);
        } else if (event.type === "failed")
          status.textContent = fillText(said.failedToMake, { message: event.error.message });
        else {
          // For reading aloud: to the eye it stands in the outcome.
          status.classList.add("unseen");
          status.textContent = headOf(event.verification);
          result.replaceChildren(...outcomeNodes(event.verification, record));
        }
      }
    } catch (error) {
      if (mine.signal.aborted) status.textContent = said.stopped;
      else if (error instanceof RequestError)
        status.textContent = fillText(said.failedToMake, { message: error.fault.message });
      else throw error;
    } finally {
      const focused = document.activeElement === stop;
      abort = null;
      bar.hidden = stop.hidden = true;
      start.hidden = false;
      if (focused) start.focus();
    }
  };
  return html("div", { class: "verification" }, html("p", { class: "buttons" }, start, stop), bar, status, result);
}

const progressText = ({ repetition, trials, limit }: VerificationEvent & { readonly type: "progress" }): string =>
  fillText(repetition > 1 ? said.repeatingAgain : said.repeating, {
    repetition: String(repetition),
    trials: whole(trials),
    limit: whole(limit),
  });

const headOf = ({ outcome, figures }: VerificationOutcome): string =>
  fillText(said.outcome[outcome], { figures: whole(figures) });

function outcomeNodes(found: VerificationOutcome, record: RunRecord): HTMLElement[] {
  const { outcome, differences, reasons, notes } = found;
  const row = (...cells: readonly Child[]): HTMLElement =>
    html(
      "tr",
      {},
      cells.map((cell, i) => html(i === 0 ? "th" : "td", i === 0 ? { scope: "row" } : {}, cell)),
    );
  return [
    html("p", { class: "verified", "data-outcome": outcome }, html("strong", {}, headOf(found))),
    ...(differences.length === 0
      ? []
      : [
          html(
            "table",
            { class: "plain differences" },
            html("caption", {}, said.differs),
            html(
              "thead",
              {},
              html(
                "tr",
                {},
                [said.place, said.filed, said.repeated].map((head) => html("th", { scope: "col" }, head)),
              ),
            ),
            html(
              "tbody",
              {},
              differences.map(({ place, filed, repeated }) =>
                row(labelNodes(placeLabel(place, record, messages)), filed, repeated),
              ),
            ),
          ),
        ]),
    html(
      "details",
      { open: outcome !== "bits" && differences.length === 0 },
      html("summary", {}, said.details),
      html(
        "ul",
        { class: "sentences", lang: "en" },
        [...reasons, ...notes].map((sentence) => html("li", {}, sentence)),
      ),
    ),
  ];
}
