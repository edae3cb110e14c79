import type { Evidence, InputRecord, MeasurandRecord, RunRecord } from "../../../engine/index.ts";
import { writeAddress } from "../address.ts";
import { findEvidenceBehind, RequestError } from "../api.ts";
import { declaredUnits } from "../declared-units.ts";
import { sceneNode } from "../draw/scene.ts";
import { conditionalScene } from "../../present/pictures/conditional.ts";
import { html, type Child } from "../draw/node.ts";
import { overUnit, withUnit } from "../../present/numbers.ts";
import { plain, significant, whole } from "../numbers.ts";
import { fillText } from "../../present/fill.ts";
import { labelOf } from "../../present/pictures/label.ts";
import { readingsPicture } from "../draw/readings-picture.ts";
import { labelNodes, symbolSpan } from "../draw/symbol.ts";
import { distributionWords } from "../../present/budget.ts";
import { speech, messages } from "../language.ts";
import { statedFigures, type Fields, type UnitsOf } from "../../present/statement.ts";
import { SURVEY_EVIDENCE } from "../../present/survey-evidence.ts";
import { symbolText } from "../../present/symbol.ts";

const words = messages.behindRow;

/** What stands behind one row of the budget: what was stated, the evidence for it, and what it does to the result. */
export function evidenceOf(record: RunRecord, measurandName: string, name: string, width: number): HTMLElement {
  const input = record.inputs[name]!;
  const each = width < 700 ? Math.max(200, width - 32) : Math.floor((width - 72) / 2);
  return html(
    "div",
    { class: "evidence" },
    html("div", {}, html("h3", {}, words.stated), stated(record, name, input, each), evidence(name, input)),
    html("div", {}, html("h3", {}, words.effect), output(record.measurands[measurandName]!, name, input, each)),
  );
}

function stated({ study }: RunRecord, name: string, input: InputRecord, width: number): Child {
  const statement = study.inputs[name] as unknown as Fields;
  const { distribution, source, values: found } = statement;
  // In a unit of its own a list of readings is not drawn beside the input's mean.
  const values =
    statement["unit"] === undefined && Array.isArray(found) && found.every((value) => typeof value === "number")
      ? (found as number[])
      : null;
  const list = html("dl", { class: "stated" });
  const fill = (unitsOf: UnitsOf): void =>
    list.replaceChildren(
      pair(words.distribution, distributionWords(String(distribution), input.distribution, messages)),
      ...statedFigures(statement, input.unit, unitsOf).map(({ label, kind, text }) =>
        pair(kind === "letter" ? html("var", {}, label) : kind === "word" ? label : html("code", {}, label), text),
      ),
      pair(
        words.source,
        typeof source === "string" ? source : html("span", { class: "source missing" }, messages.inputs.noSource),
      ),
      pair(words.evaluation, fillText(words.type, { letter: input.evaluation })),
    );
  fill(() => ({}));
  // Without the server the figures stand as the study has them, without units.
  declaredUnits().then(
    (units) => fill((of) => units.get(String(of["distribution"])) ?? {}),
    () => undefined,
  );
  return [
    list,
    distribution === "readings" && values !== null && values.length > 1
      ? html(
          "figure",
          {},
          readingsPicture(
            values,
            input.estimate,
            input.standardUncertainty,
            width,
            symbolSpan(input.symbol, overUnit("", input.unit)),
            fillText(words.indicationsName, {
              count: whole(values.length),
              low: plain(Math.min(...values)),
              high: withUnit(plain(Math.max(...values)), input.unit),
            }),
          ),
          html(
            "figcaption",
            { class: "note" },
            labelNodes(labelOf(words.indications, { count: whole(values.length), u: { symbol: "u" } })),
          ),
        )
      : null,
  ];
}

const pair = (term: Child, value: Child): HTMLElement => html("div", {}, html("dt", {}, term), html("dd", {}, value));

/** The raw records behind the figures, if the study names them. */
function evidence(inputName: string, { evidence: found, unit }: InputRecord): Child {
  if (found == null) return null;
  const { method, files, figures } = found;
  const places = files.map(({ name }) => html("span", {}, name));
  const way = html("p", {});
  if (files.length > 0 && !isOfSurvey(found)) void whatIsHere(found, places, way, inputName);
  return [
    html("h3", {}, words.evidence),
    html("p", {}, method),
    html(
      "dl",
      { class: "stated" },
      figures.map(({ name, value, unit: own }) =>
        pair(name, typeof value === "number" ? withUnit(plain(value), own ?? "1") : value),
      ),
      files.map(({ sha256 }, i) =>
        pair(words.file, [places[i]!, " ", html("code", { title: sha256 }, `SHA-256 ${sha256.slice(0, 12)}…`)]),
      ),
    ),
    isOfSurvey(found)
      ? html(
          "p",
          {},
          html(
            "a",
            { href: writeAddress({ kind: "survey", id: digestsOf(found) }), id: `survey-behind-${inputName}` },
            words.survey,
          ),
        )
      : way,
    figures.length === 0 && files.length === 0
      ? html("p", { class: "note" }, fillText(words.noFigures, { unit }))
      : null,
  ];
}

/** Links what this server keeps of the files, and the version of evidence that they are; without an answer names stay. */
async function whatIsHere(
  { files }: Evidence,
  places: readonly HTMLElement[],
  way: HTMLElement,
  inputName: string,
): Promise<void> {
  try {
    const { kept, saved } = await findEvidenceBehind(files.map(({ sha256 }) => sha256));
    for (const [i, { name, sha256 }] of files.entries())
      if (kept.includes(sha256))
        places[i]!.replaceChildren(html("a", { href: `api/evidence-files/${sha256}`, download: name }, name));
    if (saved === null || saved.kind === "survey") return;
    way.replaceChildren(
      html(
        "a",
        {
          href: writeAddress({ kind: "evidence-form", form: saved.kind, id: saved.id, version: saved.version }),
          id: `evidence-behind-${inputName}`,
        },
        fillText(words.saved, { title: saved.title, version: String(saved.version) }),
      ),
    );
  } catch (error) {
    if (!(error instanceof RequestError)) throw error;
  }
}

const OF_SURVEY: ReadonlySet<string> = new Set(Object.values(SURVEY_EVIDENCE));

/** Whether a survey's description and log stand behind an input. */
const isOfSurvey = ({ files, figures }: Evidence): boolean =>
  files.length === 2 && figures.some(({ name }) => OF_SURVEY.has(name));

/** A survey is found by the beginnings of its files' digests, wherever these are. */
const digestsOf = ({ files }: Evidence): string => files.map(({ sha256 }) => sha256.slice(0, 16)).join("-");

function output(measurand: MeasurandRecord, name: string, input: InputRecord, width: number): Child {
  const line = measurand.linear.contributions.find((contribution) => contribution.input === name)!;
  const conditional = measurand.sensitivity?.conditional[name];
  const slope = { c: { symbol: "c" }, value: significant(line.sensitivityCoefficient, 3) };
  if (input.standardUncertainty === 0) return html("p", {}, words.constant);
  if (conditional === undefined || conditional.bins.length === 0) {
    return [
      html("p", {}, labelNodes(labelOf(words.straight, slope))),
      html(
        "p",
        { class: "note" },
        words.howToAsk
          .split(/(\{field\})/)
          .map((part) => (part === "{field}" ? html("code", {}, '"sensitivity": {}') : part)),
      ),
    ];
  }
  const factor = measurand.sensitivity!.factors.find(({ inputs }) => inputs.length === 1 && inputs[0] === name);
  const direction = factor?.alone.direction ?? null;
  return html(
    "figure",
    {},
    sceneNode(
      conditionalScene(
        {
          name: fillText(words.name, { y: symbolText(measurand.symbol), x: symbolText(input.symbol) }),
          picture: conditional,
          line: { input: line.estimate, output: measurand.linear.estimate, slope: line.sensitivityCoefficient },
          width,
          titles: [
            [{ symbol: input.symbol }, overUnit("", input.unit)],
            [{ symbol: measurand.symbol }, overUnit("", measurand.unit)],
          ],
        },
        speech.numbers,
      ),
    ),
    html(
      "figcaption",
      { class: "note" },
      labelNodes(labelOf(words.band, slope)),
      direction === null || direction === "neither"
        ? null
        : labelNodes(labelOf(words.direction, { direction, x: { symbol: input.symbol } })),
    ),
  );
}
