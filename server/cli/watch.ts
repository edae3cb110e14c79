import { InvalidArgumentError, Option } from "commander";
import { SHORTEST_WINDOW, type GrowingLogOptions } from "../../models/index.ts";
import { Fault } from "../errors.ts";
import { inFile } from "../intake/in-file.ts";
import { LogWatch } from "../intake/log-watch.ts";
import { stylesFor } from "../../viewer/terminal/style.ts";
import { watchLines, watchView, type Asked } from "../../viewer/terminal/watch-lines.ts";
import type { CommandRegistration } from "./command.ts";
import { print, printAside } from "./print.ts";

interface WatchFlags {
  readonly criterion?: number;
  readonly time?: number;
  readonly window?: number;
  readonly thermometer?: readonly string[];
  readonly dates?: "day-first" | "month-first";
  readonly unit?: string;
  readonly r0?: number;
  readonly every: number;
  readonly once?: boolean;
  readonly untilMet?: boolean;
  readonly json?: boolean;
}

const INTERRUPTED = 130;
/** Widest line of the live view. */
const WIDEST = 100;

export const watch: CommandRegistration = (program) => {
  program
    .command("watch")
    .argument("<log>", "CSV or text file that a logger writes to; it is only read")
    .summary("follow a log as it grows: drift, worst window, whether the bath holds a criterion and since when")
    .description(
      "Follows a log that a logger appends to: for each thermometer the drift over the latest window, the worst window up to now, whether the readings stay within a criterion, since when, and how long they must still hold. A line that is still being written waits; a file that is cut, replaced or not there yet is followed all the same.",
    )
    .option(
      "--criterion <half-width>",
      "half-width the readings of a window must stay within, such as 5mK or 0.005K",
      kelvin,
    )
    .option("--time <duration>", "how long a calibration takes, such as 45min or 1h", seconds)
    .option(
      "--window <duration>",
      "window that is judged; without it 30 min, or the calibration if that takes longer",
      seconds,
    )
    .option(
      "--thermometer <column...>",
      "columns to follow, by heading or letter; without it all that look like thermometers",
    )
    .addOption(
      new Option("--dates <order>", "which number of 03/04/2026 is the day").choices(["day-first", "month-first"]),
    )
    .option("--unit <unit>", "unit of readings whose heading has none: °C, K, mK, °F or Ω")
    .option("--r0 <ohm>", "R₀ in Ω of thermometers that are logged as resistances (IEC 60751)", positive)
    .addOption(new Option("--every <duration>", "how often the file is looked at").argParser(seconds).default(1, "1s"))
    .option("--once", "say how the bath stands now, and end")
    .option("--until-met", "end once every thermometer followed meets the criterion")
    .option("--json", "one JSON object a line")
    .addHelpText(
      "after",
      `
On a terminal one view is kept up to date; into a pipe a line a thermometer is written whenever readings were added.

Exit codes: 0 with --once or --until-met: the criterion is met, or with --once none was stated; 2 input that cannot be
used; 3 with --once: the criterion is not met yet, or there are no readings yet; 130 ended by Ctrl+C.

Examples:
  trialband watch logger.csv --criterion 5mK --time 45min
  trialband watch logger.csv --criterion 5mK --until-met && echo "The bath holds."
  trialband watch logger.csv --once --json`,
    )
    .action(async (log: string, flags: WatchFlags) => {
      process.exitCode = await follow(log, flags);
    });
};

async function follow(path: string, flags: WatchFlags): Promise<number> {
  const { criterion = null, time = null, window = Math.max(SHORTEST_WINDOW, time ?? 0) } = flags;
  if (flags.untilMet === true && criterion === null)
    throw new Fault("bad-input", "There is nothing to wait for.", [
      { place: "--criterion", value: "nothing", accepted: "a half-width such as 5mK" },
    ]);
  const asked: Asked = { window, calibration: time, criterion };
  const options: GrowingLogOptions = {
    columns: flags.thermometer,
    dates: flags.dates,
    unit: flags.unit,
    resistance: flags.r0 === undefined ? undefined : { nominalResistance: flags.r0 },
  };
  const watched = new LogWatch(path, options, { window, criterion });
  const live = process.stdout.isTTY && flags.json !== true && flags.once !== true;
  const view = liveView();
  const aside = eachOnce();
  let stopped = false;
  let wake = (): void => undefined;
  const stop = (): void => {
    stopped = true;
    wake();
  };
  process.once("SIGINT", stop);
  process.once("SIGTERM", stop);
  try {
    for (let first = true; ; first = false) {
      const changed = await inFile(path, () => lookToTheEnd(watched, () => stopped));
      if (stopped) return INTERRUPTED;
      const state = watched.state();
      if (first && flags.once === true && !state.there) throw new Fault("no-such-file", `There is no file ${path}.`);
      if (changed || (first && (live || flags.once === true))) {
        if (flags.json === true) process.stdout.write(`${JSON.stringify({ ...state, asked })}\n`);
        else if (live) view.show(watchView(state, asked, { styles: stylesFor(process.stdout), width: width() }));
        else if (flags.once === true)
          print(`${watchView(state, asked, { styles: stylesFor(process.stdout), width: width() }).join("\n")}\n`);
        else {
          for (const line of watchLines(state)) print(`${line}\n`);
          aside([...(state.there ? [] : [`${path} is not there: waiting for it.`]), ...state.notes]);
        }
      }
      const { thermometers } = state;
      const met =
        thermometers.length > 0 &&
        thermometers.every(({ state: { criterion: found, latest } }) => (found === null ? latest.whole : found.met));
      if (flags.once === true) return met || (criterion === null && thermometers.length > 0) ? 0 : 3;
      if (flags.untilMet === true && met) return 0;
      await new Promise<void>((resolve) => {
        const timer = setTimeout(resolve, 1000 * flags.every);
        wake = () => {
          clearTimeout(timer);
          resolve();
        };
      });
      if (stopped) return INTERRUPTED;
    }
  } finally {
    process.off("SIGINT", stop);
    process.off("SIGTERM", stop);
  }
}

/** Reads a long log in pieces, between which an interrupt is heard; whether anything changed. */
async function lookToTheEnd(watched: LogWatch, stopped: () => boolean): Promise<boolean> {
  let changed = false;
  for (;;) {
    const looked = watched.look();
    changed ||= looked.changed;
    if (!looked.more) return changed;
    await new Promise((resolve) => setImmediate(resolve));
    if (stopped()) return changed;
  }
}

const width = (): number => Math.min(WIDEST, process.stdout.columns || WIDEST);

/** Writes a block of lines over the one before. */
function liveView(): { show(lines: readonly string[]): void } {
  let height = 0;
  return {
    show(lines) {
      const whole = lines.flatMap((line) => line.split("\n"));
      process.stdout.write(height === 0 ? "" : `\x1b[${height}A\x1b[J`);
      print(`${whole.join("\n")}\n`);
      height = whole.length;
    },
  };
}

/** Says beside the lines of a pipe what was not said the time before. */
function eachOnce(): (lines: readonly string[]) => void {
  let before: readonly string[] = [];
  return (lines) => {
    for (const line of lines) if (!before.includes(line)) printAside(`${line}\n`);
    before = lines;
  };
}

const UNITS: Readonly<Record<string, number>> = { s: 1, min: 60, h: 3600 };

/** A duration such as 45min, 90s or 1.5h, in s. */
function seconds(text: string): number {
  const parts = /^\s*(\d+(?:[.,]\d+)?)\s*(s|min|h)\s*$/.exec(text);
  const value = parts === null ? 0 : Number(parts[1]!.replace(",", ".")) * UNITS[parts[2]!]!;
  if (!(value > 0 && value <= 1e7)) throw new InvalidArgumentError("Expected a duration such as 90s, 45min or 1.5h.");
  return value;
}

/** A half-width such as 5mK or 0.005K, in K. */
function kelvin(text: string): number {
  const parts = /^\s*(\d+(?:[.,]\d+)?)\s*(mK|K|m°C|°C)\s*$/.exec(text);
  const value = parts === null ? 0 : Number(parts[1]!.replace(",", ".")) * (parts[2]!.startsWith("m") ? 1e-3 : 1);
  if (!(value > 0 && value < 1000)) throw new InvalidArgumentError("Expected a half-width such as 5mK or 0.005K.");
  return value;
}

function positive(text: string): number {
  const value = Number(text);
  if (!(value > 0 && value < Infinity)) throw new InvalidArgumentError("Expected a number greater than 0.");
  return value;
}
