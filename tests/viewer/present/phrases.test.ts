// The German of the models' own texts: every one has it, and what a place holds follows.
import { readdirSync, readFileSync } from "node:fs";
import { join } from "node:path";
import { describe, expect, test } from "vitest";
import { judgeBath } from "../../../models/safety/cautions.ts";
import { BATH_FLUIDS } from "../../../models/safety/fluids.ts";
import { models } from "../../../models/index.ts";
import { GERMAN, translated } from "../../../viewer/present/messages/phrases/index.ts";
import type { Model } from "../../../engine/index.ts";

interface Stated {
  readonly model: string;
  readonly inputs: object;
  readonly parameters?: Readonly<Record<string, unknown>>;
}

const root = join(import.meta.dirname, "..", "..", "..", "examples");
const studies = readdirSync(root, { recursive: true, encoding: "utf8" })
  .filter((name) => name.endsWith(".json") && !name.endsWith(".schema.json"))
  .map((name) => JSON.parse(readFileSync(join(root, name), "utf8")) as Partial<Stated>)
  .filter((document): document is Stated => document.model !== undefined && document.inputs !== undefined);

const textsOf = ({ title, source, cautions = [], inputs, optionalInputs = {}, measurands }: Model): string[] => [
  title,
  ...(source === undefined ? [] : [source]),
  ...cautions,
  ...[inputs, optionalInputs, measurands].flatMap((part) => Object.values(part).map(({ meaning }) => meaning)),
];

/** Registered models; a family with the parameters of each example that uses it, unless these word its quantities. */
const built = models.flatMap((model): Model[] =>
  "build" in model
    ? model.id === "additive" || model.id === "equation"
      ? []
      : studies.filter((study) => study.model === model.id).map(({ parameters = {} }) => model.build(parameters))
    : [model],
);

describe("German of the models", () => {
  test.each(built.map((model) => [model.id, model] as const))(
    "%s: every title, meaning, source and caution",
    (_, model) => {
      expect(textsOf(model).filter((text) => translated(text, "de") === null)).toEqual([]);
    },
  );

  test("titles and sources of families whose quantities the study words", () => {
    const texts = models.flatMap(({ title, source }) => (source === undefined ? [title] : [title, source]));
    expect(texts.filter((text) => translated(text, "de") === null)).toEqual([]);
  });

  test("numbers take a decimal comma and a true minus; a text of its own has its own phrase", () => {
    expect(translated("correction observed at 21.521 °C", "de")).toBe("bei 21,521 °C beobachtete Korrektion");
    expect(translated("temperature by the reference in bath 1, near -40 °C", "de")).toBe(
      "Temperatur nach dem Normal in Bad 1, nahe −40 °C",
    );
    expect(translated("correction of the bridge, freezing point of tin", "de")).toBe(
      "Korrektion der Brücke, Erstarrungspunkt von Zinn",
    );
  });

  test("what a model of the laboratory's own says is nobody's to translate", () => {
    expect(translated("density of the body", "de")).toBeNull();
    expect(translated("density of the body", "en")).toBe("density of the body");
  });

  test("places are those of the English", () => {
    const places = (text: string): string[] => [...text.matchAll(/\{\w+\}/g)].map(([place]) => place).toSorted();
    for (const [english, german] of Object.entries(GERMAN)) expect(places(german), english).toEqual(places(english));
  });

  test("every warning and caution that a bath can draw", () => {
    const texts = [undefined, ...BATH_FLUIDS.map(({ kind }) => kind)].flatMap((fluid) =>
      [-90, -20, 4, 72, 134, 250].flatMap((setTemperature) =>
        [{}, { overTemperatureCutOut: 60.5, underTemperatureCutOut: 10 }, { flashPoint: 61.5 }].flatMap((more) => {
          const { warnings, cautions } = judgeBath({
            setTemperature,
            ...more,
            ...(fluid === undefined ? {} : { fluid }),
          });
          return [...warnings, ...cautions];
        }),
      ),
    );
    expect(texts.length).toBeGreaterThan(1000);
    expect([...new Set(texts)].filter((text) => translated(text, "de") === null)).toEqual([]);
  });
});
