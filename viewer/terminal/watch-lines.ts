import { showInstant, type Followed } from "../../models/index.ts";
import { english, withUnit } from "../present/numbers.ts";
import { duration } from "../present/survey-figures.ts";
import { milli, type Layout } from "./lines.ts";
import { tableLines, wrap } from "./table.ts";

/** What is watched, for people. */
export interface Watched {
  readonly name: string;
  readonly there: boolean;
  readonly thermometers: readonly { readonly thermometer: string; readonly state: Followed }[];
  readonly notes: readonly string[];
  readonly leftOut: { readonly rows: number; readonly latest: string | null };
}

/** What is asked of the bath. */
export interface Asked {
  /** s */
  readonly window: number;
  /** How long a calibration takes, s. */
  readonly calibration: number | null;
  /** K */
  readonly criterion: number | null;
}

/** Drift in mK/h. */
const drift = (state: Followed): string =>
  state.drift === null ? "–" : `${state.drift > 0 ? "+" : ""}${english.fixed(state.drift * 3.6e6, 2)}`;

/** Whether the criterion is met, since when, and what is still wanting, in words. */
export function standing({ criterion, latest }: Followed): string {
  if (criterion === null) return latest.whole ? "" : "no whole window yet";
  const within = `within ±${milli(criterion.limit)} mK since ${showInstant(criterion.steadyFrom)}`;
  if (criterion.met) return `met since ${showInstant(criterion.since!)}`;
  return `not met: ${within}; must hold another ${duration(criterion.remaining)}`;
}

/** The live view: one block that is written over, within the width of the terminal. */
export function watchView(watched: Watched, asked: Asked, layout: Layout): string[] {
  const { styles, width } = layout;
  const first = watched.thermometers[0]?.state;
  const head = [
    styles.bold(watched.name),
    ...(watched.there ? [] : ["The file is not there: waiting for it."]),
    ...(first === undefined
      ? ["Waiting for readings."]
      : [
          `${first.samples} readings from ${showInstant(first.from)} to ${showInstant(first.to)}` +
            (first.interval === null ? "" : `, one every ${duration(first.interval)}`) +
            (first.gaps === 0 ? "" : `, ${first.gaps} gaps`),
        ]),
    `Window ${duration(asked.window)}${asked.calibration === null ? "" : `, calibration ${duration(asked.calibration)}`}` +
      (asked.criterion === null ? "" : `, criterion ±${milli(asked.criterion)} mK`),
  ].map((line) => wrap(line, width));
  const table =
    first === undefined
      ? []
      : tableLines(
          [
            { heading: "thermometer", align: "left" },
            { heading: "now, °C", align: "point" },
            { heading: "drift, mK/h", align: "point" },
            { heading: "latest window, ±mK", align: "point" },
            { heading: "worst window, ±mK", align: "point" },
            { heading: "worst from", align: "left" },
          ],
          watched.thermometers.map(({ thermometer, state }) => [
            thermometer,
            english.fixed(state.value, 4),
            drift(state),
            milli(state.latest.halfRange),
            state.worst === null ? "–" : milli(state.worst.halfRange),
            state.worst === null ? "–" : showInstant(state.worst.from),
          ]),
          width,
        );
  return [
    ...head,
    ...(table.length === 0 ? [] : ["", ...table, ""]),
    ...(asked.criterion === null
      ? []
      : watched.thermometers.map(({ thermometer, state }) => wrap(`${thermometer}: ${standing(state)}`, width))),
    ...watched.notes.slice(-3).map((note) => styles.dim(wrap(note, width))),
    ...(watched.leftOut.rows === 0
      ? []
      : [wrap(`${watched.leftOut.rows} rows left out; the latest: ${watched.leftOut.latest ?? ""}`, width)]),
  ];
}

/** One plain line for each thermometer, for a pipe. */
export const watchLines = ({ thermometers }: Watched): string[] =>
  thermometers.map(({ thermometer, state }) =>
    [
      showInstant(state.to),
      thermometer,
      withUnit(english.fixed(state.value, 4), "°C"),
      `drift ${drift(state)} mK/h`,
      `window ±${milli(state.latest.halfRange)} mK${state.latest.whole ? "" : " (not whole)"}`,
      state.worst === null
        ? "no worst window yet"
        : `worst ±${milli(state.worst.halfRange)} mK from ${showInstant(state.worst.from)}`,
      ...(state.criterion === null ? [] : [standing(state)]),
    ].join("  "),
  );
