import { InvalidArgumentError } from "commander";
import {
  explore as exploreStudy,
  type Exploration,
  type ExplorationSettings,
  type ExploredFigure,
  type ExploredMeasurand,
} from "../../engine/index.ts";
import {
  decimalsFor,
  FEWEST_POINTS,
  FEWEST_SCRAMBLINGS,
  isNumberOfPoints,
  MOST_POINTS,
  MOST_SCRAMBLINGS,
  toDecimals,
} from "../../engine/internal.ts";
import { inModelThread, USUAL_MODEL_LIMITS } from "../own-model/host.ts";
import { bringsOwnModel, loadStudyFile, type Overrides } from "../shelves/study.ts";
import { withProgress } from "./threaded-run.ts";
import type { CommandRegistration } from "./command.ts";
import { print } from "./print.ts";
import { wholeNumber } from "./options.ts";
import { progressLine } from "./progress.ts";
import { tablePart, type Layout } from "../../viewer/terminal/lines.ts";
import { harmless } from "../../viewer/terminal/harmless.ts";
import { stylesFor, widthOf } from "../../viewer/terminal/style.ts";
import { wrap } from "../../viewer/terminal/table.ts";

interface ExploreFlags {
  readonly points: number;
  readonly scramblings: number;
  readonly seed?: string;
  readonly json?: boolean;
}

export const explore: CommandRegistration = (program) => {
  program
    .command("explore")
    .argument("<study>", "study file: JSON, or TypeScript that exports defineStudy(…)")
    .summary("explore a study with low-discrepancy points: few evaluations, no reported figure")
    .description(
      "Evaluates a study's model at scrambled Sobol' points in place of random trials: estimate, u and both endpoints of the interval with standard errors from independent scramblings, beside plain trials of the same number. If the model is smooth, this takes far fewer evaluations, for a model that is slow or an idea to try. What is reported comes from run, whose trials are random.",
    )
    .option(
      "--points <n>",
      `points of a scrambling: a power of two from ${FEWEST_POINTS} to ${MOST_POINTS}`,
      pointsOption,
      4096,
    )
    .option(
      "--scramblings <n>",
      `independent scramblings, from ${FEWEST_SCRAMBLINGS} to ${MOST_SCRAMBLINGS}`,
      wholeNumber(FEWEST_SCRAMBLINGS, MOST_SCRAMBLINGS),
      16,
    )
    .option("--seed <text>", "seed in place of the study's")
    .option("--json", "print the exploration (JSON) in place of the tables")
    .addHelpText(
      "after",
      `
The model is evaluated 2 × points × scramblings times, half of them for the plain trials. A sweep, conformity and
sensitivity that the study asks for are left out. The same seed gives the same figures.

Exit codes: 0 done, 1 the model failed, 2 input that cannot be used.

Examples:
  trialband explore examples/harrowfen/steriliser-134.json
  trialband explore my-study.json --points 1024 --scramblings 32
  trialband explore my-study.json --json | jq '.measurands.error.estimate.gain'`,
    )
    .action(async (file: string, flags: ExploreFlags) => {
      await exploreCommand(file, flags);
    });
};

function pointsOption(text: string): number {
  const value = Number(text.replaceAll("_", ""));
  if (text.trim() === "" || !isNumberOfPoints(value)) {
    throw new InvalidArgumentError(
      `Expected a power of two from ${FEWEST_POINTS} to ${MOST_POINTS}, such as 1024, 4096 or 65536.`,
    );
  }
  return value;
}

async function exploreCommand(file: string, { points, scramblings, seed, json }: ExploreFlags): Promise<void> {
  const overrides = seed === undefined ? {} : { seed };
  const progress = progressLine(process.stderr);
  try {
    const exploration = await explored(file, overrides, { points, scramblings }, (trials, limit) =>
      progress.show(trials, limit, false),
    );
    progress.clear();
    const layout = { styles: stylesFor(process.stdout), width: widthOf(process.stdout) };
    if (json) process.stdout.write(`${JSON.stringify(exploration, null, 2)}\n`);
    else print(`${explorationLines(harmless(exploration), layout).join("\n")}\n`);
  } finally {
    progress.clear();
  }
}

/** In this thread, or with a model of the study's own in one of its own. */
async function explored(
  path: string,
  overrides: Overrides,
  settings: ExplorationSettings,
  onProgress: (trials: number, limit: number) => void,
): Promise<Exploration> {
  if (await bringsOwnModel(path))
    return withProgress(USUAL_MODEL_LIMITS, (options) =>
      inModelThread({ kind: "explore", path, overrides, settings }, options),
    );
  const { study, model } = await loadStudyFile(path, overrides);
  return exploreStudy(model, study, settings, onProgress);
}

function explorationLines(exploration: Exploration, layout: Layout): string[] {
  const { title, model, seed, notice, points, scramblings, dimensions, coverage, confidence, measurands } = exploration;
  const { styles, width } = layout;
  const figures = Object.values(measurands).flatMap(({ estimate, low }) =>
    estimate === null ? [low] : [estimate, low],
  );
  const beyond = (points * (1 - coverage.probability)) / 2;
  const level = `${100 * confidence} %`;
  return [
    styles.bold(`Exploration: ${title}`),
    styles.dim(`model ${model}, seed ${JSON.stringify(seed)}`),
    styles.dim(
      `${scramblings} independent scramblings of ${points} Sobol' points in ${dimensions} dimension${dimensions === 1 ? "" : "s"}`,
    ),
    styles.dim(
      `endpoints are those of the ${coverage.interval === "symmetric" ? "probabilistically symmetric" : "shortest"} ${Number((100 * coverage.probability).toFixed(2))} % interval`,
    ),
    "",
    styles.bold(wrap(`${notice} What is reported comes from trialband run.`, width)),
    ...Object.values(measurands).flatMap((measurand) => measurandPart(exploration, measurand, layout)),
    "",
    wrap(
      `± is half the interval that covers, at ${level}, what infinitely many points would give (Student's t with ${scramblings - 1} degrees of freedom). ` +
        `Plain are ${scramblings} sets of ${points} random trials. The gain is the ratio of the squared standard errors: how many times as many plain trials the same standard error would take. ` +
        `From ${scramblings} scramblings it is known to within the interval beside it (F, ${level}).`,
      width,
    ),
    ...(coverage.interval === "symmetric" && beyond < FEW
      ? [
          "",
          wrap(
            `Only ${Number(beyond.toPrecision(2))} points of a scrambling lie beyond either endpoint of the interval: take the standard errors of the endpoints as rough, or more points.`,
            width,
          ),
        ]
      : []),
    ...(coverage.interval === "shortest"
      ? [
          "",
          wrap(
            "The place of a shortest interval is noisy whichever way it is found, and from few values it is a little too short on average, which no standard error here shows.",
            width,
          ),
        ]
      : []),
    ...(figures.every(({ gain }) => gain !== null && gain < LITTLE)
      ? [
          "",
          wrap(
            "There is little to gain here: the model is not smooth enough in its inputs for the figures requested.",
            width,
          ),
        ]
      : []),
  ];
}

/** With fewer points beyond an endpoint, its position is left to chance. */
const FEW = 5;
/** Below this a gain is not worth a second way of drawing. */
const LITTLE = 2;

function measurandPart({ confidence }: Exploration, measurand: ExploredMeasurand, layout: Layout): string[] {
  const { symbol, meaning, estimate, standardUncertainty, low, high } = measurand;
  const unit = measurand.unit === "1" ? "" : `, ${measurand.unit}`;
  const rows: readonly (readonly [string, ExploredFigure | null])[] = [
    ["estimate", estimate],
    ["u", standardUncertainty],
    ["y_low", low],
    ["y_high", high],
  ];
  return tablePart(
    layout,
    `${symbol}  ${meaning}${unit}`,
    [
      ["", "left"],
      ["points", "point"],
      ["standard error", "point"],
      ["±", "point"],
      ["plain", "point"],
      ["standard error", "point"],
      ["gain", "right"],
      [`gain, ${100 * confidence} %`, "right"],
    ],
    rows.map(([name, figure]) => [name, ...(figure === null ? ["none", "", "", "none", "", "", ""] : cells(figure))]),
  );
}

function cells({ value, standardError, interval, plain, gain, gainInterval }: ExploredFigure): string[] {
  return [
    at(value, standardError),
    error(standardError),
    error((interval[1] - interval[0]) / 2),
    at(plain.value, plain.standardError),
    error(plain.standardError),
    gain === null ? "none" : twoDigits(gain),
    gainInterval === null ? "" : `${twoDigits(gainInterval[0])} to ${twoDigits(gainInterval[1])}`,
  ];
}

/** A value to two digits of its standard error. */
const at = (value: number, standardError: number): string =>
  standardError === 0 ? String(Number(value.toPrecision(12))) : toDecimals(value, decimalsFor(standardError, 2));

/** An uncertainty to two digits, written out unless it is all zeros. */
const error = (value: number): string =>
  value === 0 ? "0" : value < 1e-9 ? value.toExponential(1) : toDecimals(value, decimalsFor(value, 2));

/** Two significant digits, written out. */
const twoDigits = (value: number): string => String(Number(value.toPrecision(2)));
