import { titleLanguage } from "./draw/from-english.ts";
import { fillText } from "../present/fill.ts";
import { standingOf, standingText } from "../present/verdict.ts";
import { messages, shownRecord, words } from "./language.ts";
import type { RunRecord } from "../../engine/index.ts";
import type { Actions } from "./actions/index.ts";
import { writeAddress } from "./address.ts";
import type { Run } from "./run.ts";
import { readHistogram, readInterval } from "./api.ts";
import { createContents } from "./contents.ts";
import { createCopyLink } from "./copy-link.ts";
import { html, redraw, type Child } from "./draw/node.ts";
import { symbolNode } from "./draw/symbol.ts";
import { panels, type Panel, type View } from "./panels/index.ts";
import { changed, writeReading, type Reading } from "./reading.ts";
import { createRunStrip } from "./run-strip.ts";
import { isSameThing, shownRun } from "./shown.ts";
import type { State } from "./state.ts";
import { sheetWords } from "./help/sheet-words.ts";
import { createRooms } from "./rooms.ts";
import { createStart } from "./start/view.ts";
import { runFiles } from "./take-away/run-files.ts";
import { takeAway } from "./take-away/take-away.ts";
import { nameShown, ofRecord } from "./draw/taken-from.ts";
import { troubleBox } from "./trouble.ts";

/** Width the sheet is drawn at for print: the text width of A4, which fits Letter too. */
const PRINT_WIDTH = 680;

/**
 * The sheet: what is chosen, how the run stands, and the panels. Panels keep their element from one draw to the next.
 *
 * @param remember keeps how the sheet is shown, with the address that brings it back
 */
export function createSheet(
  root: HTMLElement,
  actions: Actions,
  remember: (reading: Reading, address: string) => void,
): { readonly draw: (state: State) => void; readonly redrawFor: (print: boolean) => void } {
  const notice = html("div", { class: "notice" });
  const head = html("div", { class: "head" });
  /** What the first figures bring with them, below the strip: its Cancel stays where a reader is about to press it. */
  const later = html("div", { class: "head" });
  const sections = html("div", { class: "panels" });
  const start = createStart(actions);
  const room = createRooms(actions);
  const link = createCopyLink();
  const strip = createRunStrip(actions, link);
  strip.element.className = "strip";
  const contents = createContents();
  root.append(notice, head, strip.element, later, contents.element, sections);
  let drawn: State | null = null;
  let bodies = new Map<string, HTMLElement>();
  let printing = false;

  const drawPanels = (state: State, only: Panel | null = null): void => {
    const { shown } = state;
    const filed = shownRun(shown)?.record ?? null;
    if (shown.kind !== "run" || filed === null) {
      sections.replaceChildren();
      contents.show([]);
      bodies = new Map();
      return;
    }
    const record = shownRecord(filed);
    const { run, measurand } = shown;
    if (drawn === null || !isSameThing(drawn.shown, shown)) bodies = new Map();
    const abandoned = run.state === "cancelled" || run.state === "failed" ? run.state : null;
    const applying = panels.filter(
      (panel) => panel.appliesTo(record) && (abandoned === null || panel.concludes !== true),
    );
    const standing = [...sections.children].map((section) => section.id).join(" ");
    if (bodies.size === 0 || standing !== applying.map(({ id }) => `panel-${id}`).join(" ")) {
      bodies = new Map(applying.map(({ id }) => [id, bodies.get(id) ?? html("div", { class: "panel-body" })]));
      contents.show(applying);
      sections.replaceChildren(
        ...applying.map(({ id, title }) =>
          html(
            "section",
            { class: `panel panel-${id}`, id: `panel-${id}`, "aria-labelledby": `title-${id}` },
            html("h2", { id: `title-${id}` }, title),
            bodies.get(id)!,
            takeAway(bodies.get(id)!, id, title, () => runFiles(id, drawn)),
          ),
        ),
      );
    }
    const name = shownMeasurand(record, measurand);
    nameShown(ofRecord(record, name));
    redraw(sections, () => {
      for (const panel of only === null ? applying : [only]) {
        const body = bodies.get(panel.id)!;
        const view: View = {
          provisional: run.state !== "finished",
          abandoned,
          file:
            run.file === undefined
              ? { text: null, run: run.id, altered: false }
              : { text: run.file.text, run: null, altered: run.file.altered },
          filed,
          width: printing ? PRINT_WIDTH : Math.max(240, body.clientWidth),
          study: run.study == null ? null : `examples/${run.study}.json`,
          reading: state.reading,
          choose: (change, alone = false) => choose(change, alone ? panel : null),
          sample: run.state === "finished" && run.file === undefined ? sampleOf(run.id) : null,
          reportLanguage: reportLanguage(state),
          keep: (study) => void actions.runStudy(study),
          edit: (study) => actions.write(study),
        };
        try {
          panel.render(body, record, name, view);
        } catch (error) {
          // One panel that cannot be drawn (a record kept by an older version) must not take the others with it.
          reportError(error);
          body.replaceChildren(
            html("p", {}, fillText(words.sheet.notDrawn, { version: record.engine.version, error: String(error) })),
          );
        }
      }
    });
  };

  /** Drawn at once, not with the next frame, so that a key that follows finds what it acts on. */
  const choose = (change: Readonly<Record<string, string | null>>, only: Panel | null): void => {
    if (drawn?.shown.kind !== "run") return;
    const { run, measurand } = drawn.shown;
    const reading = changed(drawn.reading, change);
    drawn = { ...drawn, reading };
    link.forget();
    // A file has no address that would bring it back.
    remember(
      reading,
      run.file === undefined ? writeAddress({ kind: "run", id: run.id, measurand }) + writeReading(reading) : "",
    );
    drawPanels(drawn, only);
  };

  const draw = (state: State): void => {
    const before = drawn;
    const { shown } = state;
    const earlier = before?.shown.kind === "run" ? before.shown : null;
    const now = shown.kind === "run" ? shown : null;
    if (earlier?.run.id !== now?.run.id || earlier?.measurand !== now?.measurand || before?.reading !== state.reading)
      link.forget();
    if (before?.trouble !== state.trouble)
      redraw(notice, () =>
        notice.replaceChildren(...(state.trouble === null ? [] : [troubleBox(state.trouble, actions.dismiss)])),
      );
    // What the address names and cannot be shown leaves the first screen, below what stands in the way.
    const first = shown.kind === "nothing" || (shown.kind === "arriving" && state.trouble !== null);
    const standing = first ? start.show(state) : room(state);
    if (standing === null) {
      const { above, below } = headOf(state);
      redraw(head, () => head.replaceChildren(...above));
      redraw(later, () => later.replaceChildren(...below));
    } else {
      if (head.firstElementChild !== standing) redraw(head, () => head.replaceChildren(standing));
      later.replaceChildren();
    }
    if (earlier?.run !== now?.run || earlier?.cut !== now?.cut || before?.busy !== state.busy) {
      strip.draw(now?.run ?? null, now?.cut ?? false, state.busy);
    }
    if (
      earlier?.run.record !== now?.run.record ||
      earlier?.run.state !== now?.run.state ||
      earlier?.measurand !== now?.measurand ||
      before?.reading !== state.reading ||
      reportLanguage(before) !== reportLanguage(state)
    ) {
      drawPanels(state);
    }
    drawn = state;
  };

  return {
    draw,
    redrawFor: (print) => {
      printing = print;
      if (drawn !== null) drawPanels(drawn);
    },
  };
}

/** A laboratory that has stated nothing yet (version 0) leaves it to the page. */
const reportLanguage = ({ laboratory }: Pick<State, "laboratory">): "en" | "de" =>
  laboratory !== null && laboratory.version > 0 ? laboratory.language : messages.language === "de" ? "de" : "en";

const sampleOf = (id: string): View["sample"] => ({
  interval: (measurand, probability) => readInterval(id, measurand, probability),
  histogram: (measurand, bins) => readHistogram(id, measurand, bins),
});

/** The measurand chosen, or the first if none is chosen or it is unknown. */
const shownMeasurand = ({ measurands }: RunRecord, asked: string | null): string =>
  asked !== null && Object.hasOwn(measurands, asked) ? asked : Object.keys(measurands)[0]!;

/** The head of a sheet, in two parts: above the strip and below it. */
interface Head {
  readonly above: readonly HTMLElement[];
  readonly below: readonly HTMLElement[];
}

function headOf(state: State): Head {
  const { shown } = state;
  if (shown.kind === "run") return runHead(shown.run, shown.measurand, state.reading);
  return {
    below: [],
    above: [
      html(
        "div",
        { class: "loading", role: "status" },
        html("h1", { id: "sheet-title", tabindex: -1 }, words.sheet.reading),
        html("progress", { "aria-label": words.sheet.reading }),
      ),
    ],
  };
}

function runHead(run: Run, measurand: string | null, reading: Reading): Head {
  const study = run.record?.study;
  const lang = titleLanguage(run.study);
  const goesOn = run.state === "waiting" || run.state === "running";
  const known: Child[] = [
    study?.laboratory === undefined ? null : html("p", { class: "laboratory", lang }, study.laboratory),
    study?.notes === undefined ? null : html("p", { class: "notes", lang }, study.notes),
    run.file === undefined ? null : html("p", { class: "notes", id: "seal", lang: "en" }, run.file.seal),
    run.file?.altered === true ? alteredBanner() : null,
    run.record === null
      ? null
      : measurandLine(run, shownRecord(run.record), shownMeasurand(run.record, measurand), reading),
    run.record === null ? null : sheetWords(),
  ];
  const header = html(
    "header",
    { class: "sheet-head" },
    html(
      "p",
      { class: "kind" },
      run.file === undefined ? kindOfRun(run) : fillText(words.sheet.fromFile, { file: run.file.name }),
    ),
    html("h1", { id: "sheet-title", tabindex: -1, lang }, run.title),
    goesOn ? null : known,
  );
  return { above: [header], below: goesOn ? [html("div", { class: "sheet-head" }, known)] : [] };
}

/** Above everything that an altered record shows. */
const alteredBanner = (): HTMLElement =>
  html(
    "div",
    { class: "altered", role: "alert", id: "altered" },
    html("p", {}, html("strong", {}, words.assessor.alteredHead)),
    html("p", {}, words.assessor.altered),
  );

/** What it is, with the way to the study that it is a version of. */
const kindOfRun = ({ own, studyVersion }: Run): Child =>
  own == null
    ? words.sheet.kind
    : [
        words.sheet.kindOf,
        html(
          "a",
          { href: writeAddress({ kind: "own", id: own }), id: "own-of-run" },
          fillText(words.sheet.version, { n: String(studyVersion) }),
        ),
      ];

function measurandLine({ id, state }: Run, { measurands }: RunRecord, shown: string, reading: Reading): HTMLElement {
  const described = (name: string): Child => {
    const { symbol, meaning } = measurands[name]!;
    return [symbolNode(symbol), `, ${meaning}`];
  };
  const names = Object.keys(measurands);
  if (names.length === 1) return html("p", { class: "measurand" }, words.sheet.measurand, described(shown));
  return html(
    "nav",
    { class: "measurands", "aria-label": words.sheet.measurands },
    html(
      "ul",
      {},
      names.map((name) =>
        html(
          "li",
          {},
          html(
            "a",
            {
              href: writeAddress({ kind: "run", id, measurand: name }) + writeReading(reading),
              id: `measurand-${name}`,
              "aria-current": name === shown ? "true" : null,
            },
            html("span", {}, described(name)),
            state === "finished"
              ? html("span", { class: "note" }, standingText(standingOf(measurands[name]!.validation), messages))
              : null,
          ),
        ),
      ),
    ),
  );
}
