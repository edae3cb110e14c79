// Logs and descriptions of the four baths, and the table of half-widths generated and evaluated. Every number is drawn
// with the engine's own generator, so the files come out the same to the byte everywhere. `write.ts` puts them on disk.
import { elementary, prepare, readStudy, type Model, type Prepared } from "trialband";
import { additive } from "trialband/models";
import {
  evaluateSurvey,
  formatInstant,
  readSurvey,
  thermometerLog,
  type SurveyDocument,
  type SurveyEvaluation,
  type ThermometerLog,
} from "trialband/evaluation";
import { BATHS, INTERVAL, POSITIONS, START, THERMOMETERS, type GeneratedBath, type PositionName } from "./baths.ts";
import { CYCLES, READINGS_DESCRIPTION, readingsCsv } from "./readings.ts";

interface Placement {
  readonly from: number;
  readonly to: number;
  readonly at: Readonly<Record<(typeof THERMOMETERS)[number], PositionName>>;
}

/** Both at the centre for 75 min, then every position with the pair one way round and the other, 13 min each. */
function placements(): Placement[] {
  const steps: Placement[] = [{ from: 0, to: 75 * 60, at: { "HS-11": "centre", "HS-12": "centre" } }];
  for (const position of ["high", "low", "east", "west"] as const) {
    for (const at of [
      { "HS-11": position, "HS-12": "centre" },
      { "HS-11": "centre", "HS-12": position },
    ] as const) {
      const from = steps.at(-1)!.to;
      steps.push({ from, to: from + 13 * 60, at });
    }
  }
  return steps;
}

export const STEPS = placements();
const SAMPLES = STEPS.at(-1)!.to / INTERVAL;
const SETTLING_MINUTES = 5;

/** Half the span of the worst 30 minutes of a series that is free of noise. */
function worstHalfRange(series: readonly number[], from: number, to: number): number {
  const width = 1800 / INTERVAL;
  let worst = 0;
  for (let start = from; start + width <= to; start++) {
    const window = series.slice(start, start + width + 1);
    worst = Math.max(worst, (Math.max(...window) - Math.min(...window)) / 2);
  }
  return worst;
}

/** Temperature of the bath about its set point: a controller that cycles, over a slow drift, of just the half-range asked for. */
function bathTemperature({ stability, period }: GeneratedBath): number[] {
  const shape = Array.from({ length: SAMPLES }, (_, i) => {
    const time = i * INTERVAL;
    return (
      elementary.sin((2 * Math.PI * time) / period) +
      0.3 * elementary.sin((2 * Math.PI * time) / (3.7 * period)) +
      (0.1 * time) / 3600
    );
  });
  // HS-12 stays at the centre through the first two steps: that is the record stability is judged from.
  const scale = stability / worstHalfRange(shape, (SETTLING_MINUTES * 60) / INTERVAL, STEPS[1]!.to / INTERVAL);
  return shape.map((value) => scale * value);
}

/** The engine's generator, by way of a study that is never run. */
function substreamOf(seed: string, input: string): ReturnType<Prepared["source"]["generator"]["open"]> {
  const study = readStudy({
    title: "noise",
    model: "additive",
    parameters: { coefficients: { noise: 1 } },
    inputs: { noise: { distribution: "normal", estimate: 0, standardUncertainty: 1 } },
    seed,
  });
  const model: Model = additive.build({ coefficients: { noise: 1 } });
  return prepare(model, study).source.generator.open(seed, input);
}

function normals(seed: string, input: string, count: number): Float64Array {
  const all = new Float64Array(count);
  const block = 1000;
  const substream = substreamOf(seed, input);
  for (let start = 0, i = 0; start < count; start += block, i++) {
    const part = new Float64Array(Math.min(block, count - start));
    substream(i).normals(0, part, part.length);
    all.set(part, start);
  }
  return all;
}

const positionDifference = ({ axial, radial }: GeneratedBath, name: PositionName): number =>
  POSITIONS[name].axial * axial + POSITIONS[name].radial * radial;

/** What the two thermometers read, rounded as the logger writes it. */
export function generateLogs(bath: GeneratedBath): ThermometerLog[] {
  const temperature = bathTemperature(bath);
  return THERMOMETERS.map((thermometer, k) => {
    const noise = normals(`harrowfen-survey-${bath.name}`, thermometer, SAMPLES);
    let step = 0;
    let since = 0;
    const values = Array.from({ length: SAMPLES }, (_, i) => {
      const time = i * INTERVAL;
      if (time >= STEPS[step]!.to) {
        step++;
        if (STEPS[step]!.at[thermometer] !== STEPS[step - 1]!.at[thermometer]) since = time;
      }
      // A thermometer that was moved comes back to the bath's temperature with a time constant of half a minute.
      const settling = 0.015 * elementary.exp(-(time - since) / 30);
      const value =
        bath.setTemperature +
        temperature[i]! +
        positionDifference(bath, STEPS[step]!.at[thermometer]) +
        (k === 0 ? bath.offset / 2 : -bath.offset / 2) +
        bath.noise * noise[i]! -
        settling;
      return Number(value.toFixed(5));
    });
    const times = Array.from({ length: SAMPLES }, (_, i) => timeOf(bath, i * INTERVAL));
    return thermometerLog(thermometer, times, values);
  });
}

const timeOf = ({ format }: GeneratedBath, elapsed: number): number =>
  format.clock === "elapsed" ? elapsed : START + elapsed;

function writtenTime({ format }: GeneratedBath, time: number): string {
  if (format.clock === "elapsed") return String(time);
  const iso = formatInstant(time);
  if (format.clock === "iso") return iso;
  return `${iso.slice(8, 10)}.${iso.slice(5, 7)}.${iso.slice(0, 4)} ${iso.slice(11)}`;
}

function csvOf(bath: GeneratedBath, logs: readonly ThermometerLog[]): string {
  const { separator, comma, unit, windows, clock } = bath.format;
  const shift = unit === "K" ? 273.15 : 0;
  const figure = (value: number): string => (value + shift).toFixed(5).replace(".", comma === true ? "," : ".");
  const lines = [
    [clock === "elapsed" ? "time / s" : "time", ...logs.map(({ thermometer }) => `${thermometer} / ${unit}`)].join(
      separator,
    ),
  ];
  logs[0]!.times.forEach((time, i) =>
    lines.push([writtenTime(bath, time), ...logs.map(({ values }) => figure(values[i]!))].join(separator)),
  );
  const end = windows === true ? "\r\n" : "\n";
  return `${windows === true ? "\uFEFF" : ""}${lines.join(end)}${end}`;
}

/** The description that goes with a log. */
export function descriptionOf(bath: GeneratedBath): SurveyDocument {
  const moment = (elapsed: number): number | string =>
    bath.format.clock === "elapsed" ? elapsed : formatInstant(START + elapsed);
  return {
    title: bath.title,
    notes: "Invented log of the Harrowfen Calibration Room, written by generate.ts.",
    bath: bath.bath,
    log: { file: `${bath.name}.csv` },
    thermometers: Object.fromEntries(THERMOMETERS.map((name) => [name, {}])),
    positions: Object.fromEntries(
      Object.entries(POSITIONS).map(([name, { depth, radius }]) => [
        name,
        { depth, radius, ...(radius > 0 ? { direction: name } : {}) },
      ]),
    ),
    reference: "centre",
    steps: STEPS.map(({ from, to, at }) => ({ from: moment(from), to: moment(to - INTERVAL), at })),
    settlingMinutes: SETTLING_MINUTES,
    calibrationMinutes: 25,
    zone: { depth: [POSITIONS.high.depth, POSITIONS.low.depth], radius: POSITIONS.east.radius },
  };
}

const mk = (value: number, digits = 3): string => (value * 1000).toFixed(digits).replace("-", "−");

/** The table that sets generated half-widths beside evaluated ones. */
export function tableOf(evaluations: readonly (readonly [GeneratedBath, SurveyEvaluation])[]): string {
  const lines = [
    "# Half-widths: generated and evaluated",
    "",
    "Written by `generate.ts`. Values in mK. u(g): largest standard uncertainty of a difference along that axis; noise: standard",
    "deviation of a single reading, which widens the span that stability is judged by.",
    "",
    "| bath | quantity | generated | evaluated | evaluated − generated | u(g) or noise |",
    "|---|---|---|---|---|---|",
  ];
  for (const [bath, { axial, radial, stability, map }] of evaluations) {
    const offset = map.offsets.reduce((sum, determination) => sum + determination.offset, 0) / map.offsets.length;
    const spread = Math.max(...map.offsets.map(({ standardUncertainty }) => standardUncertainty));
    for (const [name, generated, evaluated, noise] of [
      ["axial", bath.axial, axial!.quantity.halfWidth, axial!.limits.noise],
      ["radial", bath.radial, radial!.quantity.halfWidth, radial!.limits.noise],
      ["stability", bath.stability, stability.halfWidth, bath.noise],
      ["offset HS-11 − HS-12", bath.offset, offset, spread],
    ] as const) {
      lines.push(
        `| ${bath.name} | ${name} | ${mk(generated, 1)} | ${mk(evaluated)} | ${mk(evaluated - generated)} | ${mk(noise)} |`,
      );
    }
  }
  return `${lines.join("\n")}\n`;
}

/** Every file, by name. */
export function generate(): ReadonlyMap<string, string> {
  const files = new Map<string, string>();
  const evaluations = BATHS.map((bath) => {
    const logs = generateLogs(bath);
    const description = descriptionOf(bath);
    files.set(`${bath.name}.csv`, csvOf(bath, logs));
    files.set(`${bath.name}.json`, `${JSON.stringify(description, null, 2)}\n`);
    return [bath, evaluateSurvey(readSurvey(description), logs)] as const;
  });
  files.set("half-widths.md", tableOf(evaluations));
  files.set("readings-72.csv", readingsCsv(normals("harrowfen-readings-72", "readings", 4 * CYCLES)));
  files.set("readings-72.json", `${JSON.stringify(READINGS_DESCRIPTION, null, 2)}\n`);
  return files;
}
