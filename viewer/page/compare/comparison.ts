import { titleLanguage } from "../draw/from-english.ts";
import { gravest, standingOf, standingWords } from "../../present/verdict.ts";
import { messages, shownRecord, speech } from "../language.ts";
import type { InputRecord, MeasurandRecord, RunRecord } from "../../../engine/index.ts";
import { writeAddress } from "../address.ts";
import type { Run } from "../run.ts";
import { createCopyLink } from "../copy-link.ts";
import { densityPicture } from "../draw/density-picture.ts";
import { html, svg, type Child } from "../draw/node.ts";
import { own } from "../../present/own.ts";
import { fillText } from "../../present/fill.ts";
import type { UnitsOf } from "../../present/statement.ts";
import { declaredUnits } from "../declared-units.ts";
import { dividedBy, withUnit } from "../../present/numbers.ts";
import { readable } from "../../present/readable.ts";
import { verdictMark } from "../draw/swatch.ts";
import { labelNodes, symbolNode } from "../draw/symbol.ts";
import { when } from "../library/listing.ts";
import {
  correlationPairs,
  inputPairs,
  parameterPairs,
  resultPairs,
  settingPairs,
  type InputPair,
  type Pair,
  type Standing,
} from "../../present/differences.ts";
import { labelOf } from "../../present/pictures/label.ts";
import { overlay } from "./overlay.ts";

const words = messages.compared;
const said = messages.comparedRuns;

/** Width at which the picture is drawn if the page has none yet, and for print. */
const USUAL_WIDTH = 680;

type Runs = readonly [Run, Run];

/** Two runs side by side: their results, their inputs, and what was asked of each, with what differs set off. */
export function createComparison(): { readonly show: (runs: Runs) => HTMLElement } {
  const element = html("div", { class: "comparison-view only-differing" });
  let shown: Runs | null = null;
  addEventListener("resize", () => {
    if (shown !== null && element.isConnected)
      for (const place of element.querySelectorAll<HTMLElement>(".overlay")) place.dispatchEvent(new Event("redraw"));
  });
  return {
    show: (runs) => {
      if (runs !== shown) {
        shown = runs;
        element.replaceChildren(...contents(runs, element));
      }
      return element;
    },
  };
}

function contents(runs: Runs, element: HTMLElement): HTMLElement[] {
  const [a, b] = runs;
  const head = [
    html(
      "header",
      { class: "sheet-head" },
      html("p", { class: "kind" }, words.kind),
      html("h1", { id: "sheet-title", tabindex: -1 }, a.title === b.title ? a.title : words.title),
    ),
    html("div", { class: "both" }, runs.map(runHead)),
  ];
  const without = runs.filter(({ record }) => record === null);
  const [first, second] = [a.record, b.record].map((record) => record && shownRecord(record)) as [
    RunRecord | null,
    RunRecord | null,
  ];
  if (first === null || second === null) {
    return [
      ...head,
      html(
        "p",
        {},
        fillText(without.length === 2 ? said.neither : said.without, {
          title: without[0]!.title,
          why: without.some(({ state }) => state === "running" || state === "waiting") ? said.goesOn : said.unfinished,
        }),
      ),
    ];
  }
  const link = createCopyLink();
  const common = Object.keys(first.measurands).filter(
    (name) => own(second.measurands, name)?.unit === first.measurands[name]!.unit,
  );
  const measurand = common[0] ?? Object.keys(first.measurands)[0]!;
  return [
    ...head,
    html(
      "p",
      { class: "buttons only" },
      html("input", {
        type: "checkbox",
        id: "only-differing",
        checked: element.classList.contains("only-differing"),
        onchange: ({ target }: Event) =>
          element.classList.toggle("only-differing", (target as HTMLInputElement).checked),
      }),
      html("label", { for: "only-differing" }, words.onlyDiffering),
      link.button,
    ),
    link.answer,
    ...(common.length === 0
      ? [panel(words.results, html("p", {}, words.nothingInCommon))]
      : common.map((name) => resultPanel(first, second, name))),
    panel(words.parameters, pairTable(parameterPairs(first, second, speech), words.parameters)),
    panel(words.inputs, inputPart(first, second, measurand)),
    panel(
      words.settings,
      pairTable([...settingPairs(first, second, speech), ...correlationPairs(first, second, speech)], words.settings),
    ),
  ];
}

const panel = (title: Child, ...children: readonly Child[]): HTMLElement =>
  html("section", { class: "panel" }, html("h2", {}, title), ...children);

const LETTERS = [words.first, words.second] as const;

/** The mark of each run: filled for the first, open for the second. */
const runSwatch = (i: number): SVGSVGElement =>
  svg(
    "svg",
    { class: "swatch", width: 26, height: 12, viewBox: "0 0 26 12", "aria-hidden": "true" },
    i === 0
      ? [svg("path", { class: "trials-area", d: "M0 2H26V12H0Z" }), svg("path", { class: "trials-line", d: "M0 2H26" })]
      : svg("path", { class: "other-line", d: "M1 12V2H25V12" }),
  );

function runHead(run: Run, i: number): HTMLElement {
  const standing = gravest(Object.values(run.record?.measurands ?? {}).map(({ validation }) => standingOf(validation)));
  return html(
    "section",
    { class: "one-run", "aria-label": fillText(words.run, { which: LETTERS[i]! }) },
    html("h2", {}, runSwatch(i), LETTERS[i]!),
    html(
      "p",
      {},
      html(
        "a",
        {
          href: writeAddress({ kind: "run", id: run.id, measurand: null }),
          id: `to-run-${i}`,
          lang: titleLanguage(run.study),
        },
        run.title,
      ),
    ),
    run.startedAt === undefined ? null : html("p", { class: "note" }, when(run.startedAt)),
    standing === null
      ? html("p", { class: "note" }, run.state)
      : html(
          "p",
          { class: "verdict-small", "data-standing": standing },
          verdictMark(standing),
          html("span", {}, standingWords(standing, messages)),
        ),
  );
}

function resultPanel(first: RunRecord, second: RunRecord, name: string): HTMLElement {
  const [record, other] = [first.measurands[name]!, second.measurands[name]!];
  // One unit for both: that of the wider, so that neither figure outgrows its column.
  const like = spread(record) >= spread(other) ? record : other;
  const [a, b] = [readable(record, null, like), readable(other, null, like)];
  const pairs = resultPairs(a, b, speech);
  const place = html("div", { class: "overlay figure" });
  const draw = (): void => {
    const width = place.clientWidth > 0 ? Math.max(240, place.clientWidth) : USUAL_WIDTH;
    place.replaceChildren(overlay(a, b, LETTERS, [first.coverage.interval, second.coverage.interval], width));
  };
  place.addEventListener("redraw", draw);
  // Drawn once it is on the page, where it has a width.
  requestAnimationFrame(draw);
  return panel(
    [symbolNode(a.symbol), `, ${a.meaning}`],
    html("p", { class: "sentence" }, sentence(a, b, pairs)),
    html(
      "p",
      { class: "key" },
      LETTERS.map((letter, i) => html("span", {}, runSwatch(i), fillText(words.run, { which: letter }))),
    ),
    place,
    pairTable(pairs, a.meaning),
  );
}

const spread = ({ linear, monteCarlo }: MeasurandRecord): number =>
  linear.standardUncertainty || (monteCarlo.standardUncertainty ?? 0);

/** What became of the result, in a sentence. */
function sentence(a: MeasurandRecord, b: MeasurandRecord, pairs: readonly Pair[]): Child {
  const of = (id: string): Pair => pairs.find((pair) => pair.id === id)!;
  const [y, u] = [{ symbol: a.symbol }, { symbol: "u" }];
  const moved = ({ first, second, standing }: Pair, stays: string, moves: string): Child =>
    labelNodes(
      standing === "same"
        ? labelOf(stays, { y, u, value: withUnit(first, a.unit) })
        : labelOf(moves, { y, u, from: first, to: withUnit(second, a.unit) }),
    );
  const [first, second] = [a, b].map(({ validation }) => standingWords(standingOf(validation), messages)) as [
    string,
    string,
  ];
  return [
    first === second ? fillText(words.bothBudgets, { verdict: first }) : fillText(words.eachBudget, { first, second }),
    " ",
    moved(of("linear estimate"), words.staysEstimate, words.movesEstimate),
    ", ",
    moved(of("linear uncertainty"), words.staysUncertainty, words.movesUncertainty),
    ".",
  ];
}

/** What a standing is called aloud, and the sign that shows it. */
const STANDINGS: Readonly<Record<Standing, readonly [sign: string, words: string]>> = {
  same: ["", words.same],
  differs: ["≠", words.differs],
  scatter: ["≈", words.scatter],
};

const standingCell = (standing: Standing): HTMLElement => {
  const [sign, spoken] = STANDINGS[standing];
  return html(
    "td",
    { class: "of-standing" },
    html("span", { "aria-hidden": "true" }, sign),
    html("span", { class: "unseen" }, spoken),
  );
};

/** What is left out while only what differs is shown. */
function alikeNote(pairs: readonly { readonly standing: Standing }[], none: string): HTMLElement | null {
  const alike = pairs.filter(({ standing }) => standing !== "differs").length;
  return alike === 0
    ? null
    : html(
        "p",
        { class: "note all-same" },
        alike === pairs.length ? none : fillText(words.alike, { count: String(alike) }),
      );
}

function pairTable(pairs: readonly Pair[], name: string): HTMLElement {
  const numbers = pairs.some(({ change }) => change !== "");
  const scattered = pairs.some(({ standing }) => standing === "scatter");
  return html(
    "div",
    {},
    html(
      "table",
      { class: `pairs${numbers ? "" : " words"}`, "aria-label": fillText(said.bothRuns, { name }) },
      html(
        "thead",
        {},
        html(
          "tr",
          {},
          html("td", {}, ""),
          html("th", { scope: "col" }, numbers ? words.figure : words.part),
          html("th", { scope: "col" }, runSwatch(0), words.first),
          html("th", { scope: "col" }, runSwatch(1), words.second),
          numbers ? html("th", { scope: "col" }, words.change) : null,
        ),
      ),
      html(
        "tbody",
        {},
        pairs.map(({ label, unit, first, second, change, standing }) =>
          html(
            "tr",
            { "data-standing": standing },
            standingCell(standing),
            html("th", { scope: "row" }, labelNodes(label), dividedBy(unit)),
            html("td", { "data-label": words.first }, first),
            html("td", { "data-label": words.second }, second),
            numbers ? html("td", { "data-label": words.change, class: change === "" ? "empty" : "" }, change) : null,
          ),
        ),
      ),
    ),
    alikeNote(pairs, words.allSame),
    scattered ? html("p", { class: "note scatter-note" }, words.scatterNote) : null,
  );
}

/** The inputs; their figures get their units when the server has said which they are. */
function inputPart(first: RunRecord, second: RunRecord, measurand: string): HTMLElement {
  const place = html("div", {});
  const fill = (unitsOf?: UnitsOf): void =>
    place.replaceChildren(inputTable(inputPairs(first, second, measurand, speech, unitsOf)));
  fill();
  declaredUnits().then(
    (units) => fill(({ distribution }) => units.get(String(distribution)) ?? {}),
    // Without the server the figures stand without units, which each quantity names.
    () => {},
  );
  return place;
}

function inputTable(pairs: readonly InputPair[]): HTMLElement {
  return html(
    "div",
    {},
    html(
      "table",
      { class: "pairs inputs", "aria-label": said.inputsOfBoth },
      html(
        "thead",
        {},
        html(
          "tr",
          {},
          html("td", {}, ""),
          html("th", { scope: "col" }, words.quantity),
          html("th", { scope: "col" }, runSwatch(0), words.first),
          html("th", { scope: "col" }, runSwatch(1), words.second),
        ),
      ),
      html(
        "tbody",
        {},
        pairs.map((pair) =>
          html(
            "tr",
            { "data-standing": pair.standing },
            standingCell(pair.standing),
            html("th", { scope: "row" }, quantity((pair.first ?? pair.second)!)),
            html("td", { "data-label": words.first }, inputCell(pair, 0)),
            html("td", { "data-label": words.second }, inputCell(pair, 1)),
          ),
        ),
      ),
    ),
    alikeNote(pairs, words.inputsSame),
  );
}

const quantity = ({ symbol, meaning, unit }: InputRecord): Child => [
  symbolNode(symbol),
  html("span", { class: "meaning" }, meaning === symbol ? "" : meaning),
  unit === "1" ? null : html("span", { class: "note" }, fillText(words.inUnit, { unit })),
];

function inputCell(pair: InputPair, i: 0 | 1): Child {
  const input = i === 0 ? pair.first : pair.second;
  if (input === null) return html("span", { class: "note" }, words.noInput);
  const source = pair.sources[i];
  return html(
    "span",
    { class: "input-cell" },
    densityPicture(input),
    html(
      "span",
      {},
      html(
        "span",
        { class: "stated" },
        pair.statements[i].map(({ text, differs }, at) => [
          at === 0 ? null : at === 1 ? ": " : ", ",
          differs ? html("strong", {}, text) : text,
        ]),
      ),
      pair.shares[i] === ""
        ? null
        : html("span", { class: "note" }, fillText(words.shareOf, { share: pair.shares[i] })),
      source === null
        ? html("span", { class: "source missing" }, messages.inputs.noSource)
        : html("span", { class: "source" }, source),
    ),
  );
}
