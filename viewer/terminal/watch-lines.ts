import { showInstant, type Followed } from "../../models/index.ts";
import { fillText } from "../present/fill.ts";
import { en } from "../present/messages/en/index.ts";
import { english, withUnit } from "../present/numbers.ts";
import { duration } from "../present/survey-figures.ts";
import { milli, type Layout } from "./lines.ts";
import { tableLines, wrap } from "./table.ts";

const words = en.watch;

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
  if (criterion === null) return latest.whole ? "" : words.noWindow;
  const within = fillText(words.within, {
    limit: milli(criterion.limit),
    since: showInstant(criterion.steadyFrom),
  });
  if (criterion.met) return fillText(words.met, { since: showInstant(criterion.since!) });
  return fillText(words.notMet, { within, time: duration(criterion.remaining, english) });
}

/** The live view: one block that is written over, within the width of the terminal. */
export function watchView(watched: Watched, asked: Asked, layout: Layout): string[] {
  const { styles, width } = layout;
  const first = watched.thermometers[0]?.state;
  const head = [
    styles.bold(watched.name),
    ...(watched.there ? [] : [words.absent]),
    ...(first === undefined
      ? [words.waiting]
      : [
          fillText(words.readings, {
            count: String(first.samples),
            from: showInstant(first.from),
            to: showInstant(first.to),
          }) +
            (first.interval === null ? "" : fillText(words.interval, { time: duration(first.interval, english) })) +
            (first.gaps === 0 ? "" : fillText(words.gaps, { count: String(first.gaps) })),
        ]),
    fillText(words.window, { time: duration(asked.window, english) }) +
      (asked.calibration === null ? "" : fillText(words.calibration, { time: duration(asked.calibration, english) })) +
      (asked.criterion === null ? "" : fillText(words.criterion, { limit: milli(asked.criterion) })),
  ].map((line) => wrap(line, width));
  const table =
    first === undefined
      ? []
      : tableLines(
          [
            { heading: words.thermometer, align: "left" },
            { heading: words.now, align: "point" },
            { heading: words.drift, align: "point" },
            { heading: words.latest, align: "point" },
            { heading: words.worst, align: "point" },
            { heading: words.worstFrom, align: "left" },
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
      : [
          wrap(
            fillText(words.leftOut, { count: String(watched.leftOut.rows), latest: watched.leftOut.latest ?? "" }),
            width,
          ),
        ]),
  ];
}

function latestWindow({ latest }: Followed): string {
  const window = fillText(words.windowOf, { value: milli(latest.halfRange) });
  return latest.whole ? window : fillText(words.notWhole, { window });
}

/** One plain line for each thermometer, for a pipe. */
export const watchLines = ({ thermometers }: Watched): string[] =>
  thermometers.map(({ thermometer, state }) =>
    [
      showInstant(state.to),
      thermometer,
      withUnit(english.fixed(state.value, 4), "°C"),
      fillText(words.driftOf, { value: drift(state) }),
      latestWindow(state),
      state.worst === null
        ? words.noWorst
        : fillText(words.worstOf, { value: milli(state.worst.halfRange), from: showInstant(state.worst.from) }),
      ...(state.criterion === null ? [] : [standing(state)]),
    ].join("  "),
  );
