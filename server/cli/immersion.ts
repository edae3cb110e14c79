import { Option } from "commander";
import {
  depthReadings,
  evaluateImmersion,
  type ImmersionDescription,
  type ImmersionEvaluation,
  type LimitsDistribution,
} from "../../models/index.ts";
import type { Evidence } from "../../engine/index.ts";
import { inFile } from "../intake/in-file.ts";
import { loadImmersion } from "../intake/index.ts";
import type { CommandRegistration } from "./command.ts";
import { checkPart, listPart, milli, part, plain, tablePart, type Layout } from "../../viewer/terminal/lines.ts";
import { conclude, EXIT_CODES, studyOptions, type Evaluated, type OutcomeFlags } from "./outcome.ts";
import { citedImmersion } from "../intake/immersion-evidence.ts";
import { watchFile } from "../intake/watched-file.ts";

interface ImmersionFlags extends OutcomeFlags {
  readonly distribution: LimitsDistribution;
}

export const immersion: CommandRegistration = (program) => {
  const command = program
    .command("immersion")
    .argument(
      "<file>",
      "JSON: a withdrawal, readings at several depths, or both, with the depth planned and the error allowed",
    )
    .summary("check the immersion of a probe: whether the planned depth is enough, and the error it leaves for a study")
    .description(
      "Evaluates an immersion check: the error that corresponds to the change on withdrawing the probe, with a decay length that is stated, found by a second withdrawal or else taken as 60 mm, and, if it was read at three or more depths, the exponential fall of the stem's conduction and the depth that suffices.",
    )
    .addOption(
      new Option("--distribution <kind>", "how the limits are stated")
        .choices(["rectangular", "triangular", "arcsine"])
        .default("rectangular"),
    );
  studyOptions(command)
    .addHelpText(
      "after",
      `
The quantity is immersion, in °C.

${EXIT_CODES}

Examples:
  trialband immersion examples/survey/immersion-134.json
  trialband immersion my-check.json --study my-study.json --out immersed.json`,
    )
    .action(async (file: string, flags: ImmersionFlags) => {
      process.exitCode = await conclude(await evaluated(file, flags), flags);
    });
};

async function evaluated(file: string, { distribution }: ImmersionFlags): Promise<Evaluated> {
  const watched = await watchFile(file);
  return inFile(file, async () => {
    const description = await loadImmersion(watched.source);
    const evaluation = evaluateImmersion(description);
    const trace = watched.trace();
    return {
      name: file,
      evaluation: { file: trace, ...evaluation },
      lines: (layout) => immersionLines(evaluation, description, trace, layout),
      statements: () => citedImmersion(evaluation, description, trace, distribution),
      units: { immersion: "°C" },
    };
  });
}

function immersionLines(
  { title, withdrawal, fit }: ImmersionEvaluation,
  description: ImmersionDescription,
  file: Evidence["files"][number],
  layout: Layout,
): string[] {
  return [
    layout.styles.bold(title),
    layout.styles.dim(`${file.name}  SHA-256 ${file.sha256}`),
    ...(withdrawal === null
      ? []
      : part(layout, "Withdrawn", [
          `by ${plain(description.withdrawal!.withdrawn)} mm at ${plain(description.withdrawal!.depth)} mm: the reading changes by ${milli(withdrawal.change)} mK; an error of ${milli(withdrawal.error)} mK with a decay length of ${plain(withdrawal.conductionLength, 3)} mm (${withdrawal.lengthFrom}); allowed are ${milli(description.limit)} mK`,
        ])),
    ...(fit === null
      ? []
      : [
          ...tablePart(
            layout,
            "Readings over depth, mK",
            [
              ["depth, mm", "right"],
              ["reading", "point"],
              ["error by the fit", "point"],
            ],
            depthReadings(description.depths!).map(({ depth, reading }, i) => [
              plain(depth),
              milli(reading),
              milli(fit.errors[i]!),
            ]),
          ),
          ...part(layout, "Fitted", [
            `conduction length ${plain(fit.conductionLength, 3)} mm; scatter about the curve ${fit.residualDeviation === null ? "unknown: three depths leave none" : `${milli(fit.residualDeviation)} mK`}`,
            `at the planned ${plain(fit.plannedDepth)} mm the error is ${milli(fit.plannedError)} mK${fit.plannedStandardUncertainty === null ? "" : `, u ${milli(fit.plannedStandardUncertainty)} mK`}`,
            `it falls to ${milli(description.limit)} mK at ${plain(Math.max(0, fit.sufficientDepth), 3)} mm`,
          ]),
        ]),
    ...checkPart(layout, [...(withdrawal?.checks ?? []), ...(fit?.checks ?? [])]),
    ...listPart(layout, "Reasoning", [...(withdrawal?.reasoning ?? []), ...(fit?.reasoning ?? [])]),
  ];
}
