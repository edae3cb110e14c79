import type { WatchedLog, WatchEvent, WatchState } from "../../api/watched-logs.ts";
import { fillText } from "../../present/fill.ts";
import { duration, milli, moment } from "../survey/figures.ts";
import type { Table } from "../../present/tables/table.ts";
import { writeAddress } from "../address.ts";
import { eventsOfLog } from "../api.ts";
import { html, redraw } from "../draw/node.ts";
import { wideTable } from "../draw/table.ts";
import { field, input, select } from "../evidence/field.ts";
import { speech, messages, words as pageWords } from "../language.ts";
import { words } from "../later-words.ts";
import { queryOf, rememberAsked, rememberedAsked, wrongFields, type AskedField } from "./asked.ts";
import { watchPicture } from "./picture.ts";
import { followLog } from "./stream.ts";

/** Time without a change of a field after which the log is followed as asked, ms. */
const PAUSE = 500;

/** A log as it grows: what is asked of the bath, and how it stands. */
export function createWatch(): {
  readonly show: (shown: { readonly logs: readonly WatchedLog[]; readonly id: string | null }) => HTMLElement;
} {
  const asked = rememberedAsked();
  let logs: readonly WatchedLog[] = [];
  let id: string | null = null;
  let stop: (() => void) | null = null;
  let followed = "";
  let timer: ReturnType<typeof setTimeout> | undefined;
  let state: WatchState | null = null;

  const name = html("h1", { id: "sheet-title", tabindex: -1 });
  const choice = html("div", { class: "fields" });
  const fields = html("div", { class: "fields" });
  const cutNote = html("p", { class: "note", id: "watch-cut", role: "status" });
  const standing = html("div", { id: "watch-standing", role: "status" });
  const rest = html("div", { id: "watch-rest" });
  const body = html(
    "div",
    {},
    html(
      "section",
      { class: "panel", "aria-labelledby": "watch-asked-title" },
      html("h2", { id: "watch-asked-title" }, words.watch.asked),
      html("p", {}, words.forms.safety),
      fields,
    ),
    html(
      "section",
      { class: "panel", "aria-labelledby": "watch-now-title" },
      html("h2", { id: "watch-now-title" }, words.watch.now),
      cutNote,
      standing,
      rest,
    ),
  );
  const none = html(
    "section",
    { class: "panel", id: "watch-none" },
    html("p", {}, words.watch.none),
    html("p", {}, html("code", {}, "npx trialband serve --watch FILE")),
  );
  const element = html(
    "div",
    { class: "survey-setup new-study watch" },
    html("header", { class: "sheet-head" }, html("p", { class: "kind" }, words.watch.heading), name, choice),
    body,
    none,
  );
  addEventListener("resize", () => {
    if (element.isConnected) drawRest();
  });

  const figure = (key: AskedField, label: string, help = ""): HTMLElement =>
    field(
      `watch-${key}`,
      label,
      input(
        asked[key],
        (value) => {
          asked[key] = value;
          askSoon();
        },
        { class: "figure", inputmode: "decimal" },
      ),
      help,
    );
  const chosen = (key: AskedField, label: string, options: readonly (readonly [string, string])[]): HTMLElement =>
    field(
      `watch-${key}`,
      label,
      select(asked[key], options, (value) => {
        asked[key] = value;
        askSoon();
      }),
    );
  fields.append(
    figure("criterion", words.watch.criterion, words.watch.criterionHelp),
    figure("time", words.watch.time),
    figure("window", words.watch.window, words.watch.windowHelp),
    chosen("unit", words.watch.unit, [
      ["", words.watch.asHeading],
      ...["°C", "K", "mK", "°F", "Ω"].map((one) => [one, one] as const),
    ]),
    figure("r0", "R₀ / Ω", words.watch.r0Help),
    chosen("dates", words.watch.dates, [
      ["", words.watch.asShown],
      ["day-first", words.watch.dayFirst],
      ["month-first", words.watch.monthFirst],
    ]),
  );

  function askSoon(): void {
    clearTimeout(timer);
    timer = setTimeout(ask, PAUSE);
  }

  /** Follows the log as it is asked for now; what is no number is told at its field, and the log is followed as before. */
  function ask(): void {
    const wrong = wrongFields(asked);
    for (const key of Object.keys(asked) as AskedField[]) {
      const problem = document.getElementById(`watch-${key}-problem`);
      if (problem === null) continue;
      const bad = wrong.includes(key);
      problem.textContent = bad
        ? fillText(pageWords.frame.problemHere, { value: asked[key], accepted: words.watch.positive })
        : "";
      document.getElementById(`watch-${key}`)?.toggleAttribute("aria-invalid", bad);
    }
    if (wrong.length > 0) return;
    rememberAsked(asked);
    follow();
  }

  function follow(): void {
    const address = id === null ? "" : eventsOfLog(id, queryOf(asked));
    if (stop !== null && address === followed) return;
    stop?.();
    stop = null;
    followed = address;
    if (address !== "") stop = followLog(address, take, (cut) => (cutNote.textContent = cut ? words.watch.cut : ""));
  }

  function take(event: WatchEvent): void {
    // Something else is on the sheet: taken up again once this is.
    if (!element.isConnected) {
      stop?.();
      stop = null;
      return;
    }
    if (event.type === "failed") {
      state = null;
      say([
        event.message,
        ...event.problems.map(
          ({ value, accepted }) =>
            `${fillText(pageWords.frame.problemHere, { value, accepted: speech.translate(accepted) })}.`,
        ),
      ]);
      return rest.replaceChildren();
    }
    state = event;
    say(sentencesOf(event));
    drawRest();
  }

  /** A sentence that is the same as before is not said again. */
  function say(sentences: readonly string[]): void {
    const now = sentences.join("\n");
    if (standing.dataset["said"] === now) return;
    standing.dataset["said"] = now;
    standing.replaceChildren(...sentences.map((sentence) => html("p", {}, sentence)));
  }

  function drawRest(): void {
    if (state === null) return;
    const now = state;
    redraw(rest, () =>
      rest.replaceChildren(
        ...(now.thermometers.length === 0
          ? []
          : [
              wideTable(tableOf(now), "watch-table"),
              html("figure", {}, watchPicture(now, Math.max(260, rest.clientWidth))),
            ]),
        ...(now.notes.length === 0 && now.leftOut.rows === 0
          ? []
          : [
              html(
                "ul",
                { class: "sentences", id: "watch-notes" },
                now.notes.map((note) => html("li", {}, `${note}.`)),
                now.leftOut.rows === 0
                  ? null
                  : html(
                      "li",
                      {},
                      fillText(messages.watch.leftOut, {
                        count: String(now.leftOut.rows),
                        latest: now.leftOut.latest ?? "",
                      }),
                    ),
              ),
            ]),
      ),
    );
  }

  return {
    show: (shown) => {
      const before = id;
      logs = shown.logs;
      id = shown.id ?? logs[0]?.id ?? null;
      const log = logs.find((one) => one.id === id);
      if (log === undefined) id = null;
      name.textContent = log === undefined ? words.frame.watch : fillText(words.watch.titleOf, { name: log.name });
      body.hidden = log === undefined;
      none.hidden = log !== undefined;
      choice.replaceChildren(
        ...(logs.length < 2
          ? []
          : [
              field(
                "watch-log",
                words.watch.which,
                select(
                  id ?? "",
                  logs.map((one) => [one.id, one.name] as const),
                  (other) => {
                    location.hash = writeAddress({ kind: "watch", id: other });
                  },
                ),
              ),
            ]),
      );
      if (id !== before || state === null) {
        state = null;
        rest.replaceChildren();
        say([words.watch.reading]);
      }
      queueMicrotask(ask);
      return element;
    },
  };
}

/** How the bath stands, in sentences. */
function sentencesOf({ there, thermometers, window }: WatchState): string[] {
  const { watch } = words;
  return [
    ...(there ? [] : [thermometers.length === 0 ? messages.watch.absent : watch.gone]),
    ...(there && thermometers.length === 0 ? [messages.watch.waiting] : []),
    ...thermometers.map(({ thermometer, state: { criterion, latest } }) => {
      if (criterion === null)
        return fillText(latest.whole ? watch.noCriterion : watch.notWhole, {
          name: thermometer,
          window: duration(window),
        });
      const parts = { name: thermometer, limit: milli(criterion.limit), window: duration(window) };
      return criterion.met
        ? fillText(watch.met, { ...parts, since: moment(criterion.since!) })
        : fillText(watch.notMet, {
            ...parts,
            steady: moment(criterion.steadyFrom),
            // By the minute, so that it is not said anew with every reading.
            remaining: duration(60 * Math.ceil(criterion.remaining / 60)),
          });
    }),
  ];
}

function tableOf({ thermometers, window }: WatchState): Table {
  const { numbers } = speech;
  const shared = messages.watch;
  const fixed = (value: number | null, factor: number, places: number): string =>
    value === null ? "–" : numbers.fixed(factor * value, places);
  return {
    caption: fillText(words.watch.table, { window: duration(window) }),
    columns: [
      { head: shared.thermometer, kind: "head" },
      { head: shared.now, kind: "number" },
      { head: shared.drift, kind: "number" },
      { head: shared.latest, kind: "number" },
      { head: shared.worst, kind: "number" },
      { head: shared.worstFrom, kind: "text" },
      { head: words.watch.last, kind: "text" },
    ],
    rows: thermometers.map(({ thermometer, state }) => ({
      head: thermometer,
      cells: [
        numbers.fixed(state.value, 4),
        fixed(state.drift, 3.6e6, 2),
        fixed(state.latest.halfRange, 1000, 2),
        fixed(state.worst?.halfRange ?? null, 1000, 2),
        state.worst === null ? "–" : moment(state.worst.from),
        moment(state.to),
      ],
    })),
  };
}
