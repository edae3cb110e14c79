import { InputError, refuse, show, type Problem } from "../../../engine/index.ts";
import { checkResistance, toCelsius } from "../log/resistance.ts";
import { readUnit, UNITS_ACCEPTED } from "../text/units.ts";
import { showInstant } from "../text/instant.ts";
import type { Indication } from "./comparison-sequence.ts";
import type { ReadingsDescription } from "./description.ts";

/** Readings that stand in the description itself. */
export interface StatedReadings {
  /** In order of time, °C. */
  readonly indications: readonly Indication[];
  /** Whether the rows have their moments; without them a row counts as one second, and only their order is known. */
  readonly timed: boolean;
}

/**
 * Reads the rows of a description as a log would be read: the readings of a row were taken together, a row with one
 * reading stands for a reading in turn.
 *
 * @throws {InputError} every row, channel, unit or moment that cannot be used, by its place
 */
export function statedReadings({ rows = [], channels }: ReadingsDescription): StatedReadings {
  const convert = new Map(Object.entries(channels).map(([name, channel]) => [name, converterOf(name, channel)]));
  const relative = Object.values(channels).filter(({ unit }) => unit !== undefined && readUnit(unit) === "mK").length;
  if (relative > 0 && relative < convert.size)
    refuse(
      "channels",
      Object.entries(channels)
        .map(([name, { unit = "°C" }]) => `${name} in ${unit}`)
        .join(", "),
      "mK for every channel or for none: they count from a zero that the others lack",
    );
  const timed = rows.some(({ time }) => time !== undefined);
  const problems: Problem[] = [];
  const indications: Indication[] = [];
  let last = -Infinity;
  rows.forEach(({ time: stated, readings }, i) => {
    const place = `rows.${i}`;
    const time = timed ? stated : i;
    if (time === undefined)
      return void problems.push({
        place: `${place}.time`,
        value: show(undefined),
        accepted: "a time in every row, or in none",
      });
    if (!(time > last))
      problems.push({
        place: `${place}.time`,
        value: showInstant(time),
        accepted: `a time after ${showInstant(last)}`,
      });
    last = Math.max(last, time);
    if (Object.keys(readings).length === 0)
      problems.push({ place, value: "no reading", accepted: "a reading of at least one channel" });
    for (const [channel, value] of Object.entries(readings)) {
      const celsius = convert.get(channel);
      if (celsius === undefined) {
        problems.push({
          place: `${place}.readings.${channel}`,
          value: show(value),
          accepted: `readings of the channels ${Object.keys(channels).join(", ")}`,
        });
        continue;
      }
      try {
        indications.push({ time, channel, value: celsius(value) });
      } catch (error) {
        if (!(error instanceof InputError)) throw error;
        const { accepted } = error.problems[0]!;
        problems.push({ place: `${place}.readings.${channel}`, value: show(value), accepted });
      }
    }
  });
  if (problems.length > 0) throw new InputError(problems);
  return { indications, timed };
}

/** Readings of a channel in °C; a channel without a unit is one of temperatures in °C. */
function converterOf(name: string, channel: ReadingsDescription["channels"][string]): (value: number) => number {
  const unit = channel.unit === undefined ? "°C" : readUnit(channel.unit);
  if (unit === null) return refuse(`channels.${name}.unit`, channel.unit, UNITS_ACCEPTED);
  if (unit === "Ω") checkResistance(`channels.${name}`, channel);
  const convert = toCelsius(unit, channel);
  return (value) => {
    const celsius = convert(value);
    if (unit !== "mK" && !(celsius >= -273.15 && celsius < 4000))
      refuse(name, value, `a temperature that can be: from absolute zero to 4000 °C, in ${unit}`);
    return celsius;
  };
}
