// What a command prints keeps within the terminal: 100 columns, if nothing says how wide it is.
import { readdirSync, readFileSync } from "node:fs";
import { join } from "node:path";
import pico from "picocolors";
import { expect, test } from "vitest";
import { propagate, type Model, readStudy } from "../../../engine/index.ts";
import { coverageOf } from "../../../engine/coverage/coverage.ts";
import { fewestTrials } from "../../../engine/trials/batch.ts";
import checkWeight from "../../../examples/density/density.ts";
import { displayWidth } from "../../../viewer/terminal/table.ts";
import { summaryOf } from "../../../viewer/terminal/summary.ts";
import { modelOf } from "../../read-example.ts";
import { LONG } from "../../setup/long.ts";

const WIDTH = 100;
const root = join(import.meta.dirname, "../../../examples");

type Document = Record<string, unknown> & { readonly model: string };
const isStudy = (document: unknown): document is Document =>
  typeof document === "object" && document !== null && "model" in document && "inputs" in document;

const studies = readdirSync(root, { recursive: true, encoding: "utf8" })
  .filter((name) => name.endsWith(".json") && !name.endsWith(".schema.json"))
  .toSorted()
  .flatMap((name) => {
    const document = JSON.parse(readFileSync(join(root, name), "utf8")) as unknown;
    return isStudy(document) ? [{ name, document }] : [];
  });

test("the examples are found, the widest budget among them", () => {
  expect(studies.length).toBeGreaterThan(30);
  expect(studies.map(({ name }) => name)).toContain("platinum/sprt-bath-72.json");
});

const keepsWithin = ({ document }: (typeof studies)[number]): void => {
  const model: Model = document.model.endsWith(".ts") ? (checkWeight as Model) : modelOf(document);
  // Few, since figures of few trials have as many digits as those of many.
  const trials = fewestTrials(coverageOf(readStudy(document).coverage).probability);
  const record = propagate(model, readStudy({ ...document, trials }));
  const lines = summaryOf(record, null, pico.createColors(false), WIDTH).split("\n");
  expect(lines.length).toBeGreaterThan(20);
  expect(lines.filter((line) => displayWidth(line) > WIDTH)).toEqual([]);
};
/** What a summary is made of: the model with its quantities, and a sweep's table. */
const kindOf = ({ model, sweep }: Document): string => `${model} ${sweep !== undefined}`;
const kinds = studies.map(({ document }) => kindOf(document));
const first = (_: unknown, i: number): boolean => kinds.indexOf(kinds[i]!) === i;
test.each(studies.filter(first))("$name, the first of its kind", keepsWithin);
test.each(studies.filter((study, i) => !first(study, i)))("$name", LONG, keepsWithin);
