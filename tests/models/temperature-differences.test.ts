// Which quantities in °C are temperatures and which are differences, of every model that an example runs.
import { readdirSync, readFileSync } from "node:fs";
import { describe, expect, test } from "vitest";
import type { Quantity } from "../../engine/index.ts";
import { models } from "../../models/index.ts";
import { modelOf } from "../read-example.ts";

const folder = new URL("../../examples/", import.meta.url);
const studies = readdirSync(folder, { recursive: true, encoding: "utf8" })
  .filter((name) => name.endsWith(".json"))
  .map((name) => JSON.parse(readFileSync(new URL(name, folder), "utf8")) as { model?: unknown; parameters?: unknown })
  // A sum is what its study says it is.
  .filter(
    (study): study is { model: string; parameters?: unknown } =>
      study.model !== "additive" && study.model !== "equation" && models.some(({ id }) => id === study.model),
  );

/** Every quantity in °C that the models declare, by model and name; figures at the end of a name stand for any. */
const declared = new Map<string, Quantity>();
for (const study of studies) {
  const model = modelOf(study);
  const curve = model.calibrationCurve;
  const all = {
    ...model.inputs,
    ...model.measurands,
    ...(curve === undefined ? {} : { argument: curve.argument, value: curve.value }),
  };
  for (const [name, quantity] of Object.entries(all))
    if (quantity.unit === "°C") declared.set(`${model.id} ${name.replace(/\d+$/, "#")}`, quantity);
}

describe("quantities in °C", () => {
  // By what they are; all others are corrections, differences or changes, of which 1 °C is 1 K.
  const TEMPERATURES = [
    "bath-comparison referenceReading",
    "lethal-rate reading",
    "lethal-rate referenceTemperature",
    "probe-fit argument",
    "probe-fit reference#",
    "probe-fit t",
    "sprt-bath bathTemperature",
    "sprt-fixed-points t",
    "thermometer-line argument",
    "two-wire-plant leadTemperature",
    "two-wire-plant temperature",
  ];

  test("are temperatures where these are named, and differences everywhere else", () => {
    const temperatures = [...declared].filter(([, { difference }]) => difference !== true).map(([name]) => name);
    expect(temperatures.toSorted()).toEqual(TEMPERATURES);
    expect(declared.size).toBeGreaterThan(2 * TEMPERATURES.length);
  });

  test("a sum says of its measurand and its terms what they are", () => {
    const family = models.find(({ id }) => id === "additive")!;
    if (!("build" in family)) throw new Error("additive is a family");
    const parameters = {
      coefficients: { a: 1, b: 1 },
      measurand: { unit: "°C", difference: true },
      terms: { a: { unit: "°C", difference: false } },
    };
    const { measurands, inputs } = family.build(parameters);
    expect([measurands["result"]!.difference, inputs["a"]!.difference, inputs["b"]!.difference]).toEqual([
      true,
      false,
      undefined,
    ]);
    expect(() => family.build({ ...parameters, measurand: { difference: "yes" } })).toThrow(
      /parameters\.measurand\.difference/,
    );
    expect(() => family.build({ ...parameters, terms: { a: { difference: 1 } } })).toThrow(
      /parameters\.terms\.a\.difference/,
    );
  });
});
