import { Option } from "commander";
import type { SurveyChoice } from "../../models/index.ts";
import { inFile } from "../intake/in-file.ts";
import type { CommandRegistration } from "./command.ts";
import { conclude, EXIT_CODES, studyOptions, type Evaluated, type OutcomeFlags } from "./outcome.ts";
import { readingLine } from "./reading-line.ts";
import { citedStatements } from "../intake/survey-evidence.ts";
import { surveyLines } from "../../viewer/terminal/survey-lines.ts";
import { surveyedBath } from "../intake/surveyed.ts";

interface SurveyFlags extends OutcomeFlags {
  readonly axial?: NonNullable<SurveyChoice["bathAxial"]>;
  readonly radial?: NonNullable<SurveyChoice["bathRadial"]>;
  readonly stability?: NonNullable<SurveyChoice["bathStability"]>;
}

const LIMITS = ["rectangular", "triangular", "arcsine"] as const;

export const survey: CommandRegistration = (program) => {
  const command = program
    .command("survey")
    .argument("<description>", "JSON: which log, which thermometer stood where and when, and the zone to evaluate")
    .summary(
      "evaluate a survey of a bath: stability, differences over the zone, and the input quantities they give a study",
    )
    .description(
      "Evaluates the log of a bath survey (CSV or XLSX): stability over the worst window, vertical and horizontal differences with the thermometers swapped or one moved, their own offset, the map of the zone and the gain of a smaller one. The results are input quantities with their evidence.",
    )
    .addOption(
      new Option("--axial <distribution>", "of the vertical difference, in place of that of the arrangement").choices(
        LIMITS,
      ),
    )
    .addOption(new Option("--radial <distribution>", "of the horizontal difference").choices(LIMITS))
    .addOption(
      new Option(
        "--stability <distribution>",
        "of the stability; normal takes the standard deviation in the worst window",
      ).choices([...LIMITS, "normal"]),
    );
  studyOptions(command)
    .addHelpText(
      "after",
      `
The quantities are bathStability, bathAxial and bathRadial, in °C. A long CSV is read as a stream.

${EXIT_CODES}

Examples:
  trialband survey examples/survey/steriliser-134.json
  trialband survey examples/survey/steriliser-134.json --study examples/harrowfen/steriliser-134.json --run
  trialband survey my-survey.json --study my-study.json --out surveyed.json --stability arcsine`,
    )
    .action(async (file: string, flags: SurveyFlags) => {
      process.exitCode = await conclude(await evaluated(file, flags), flags);
    });
};

async function evaluated(file: string, { axial, radial, stability }: SurveyFlags): Promise<Evaluated> {
  const line = readingLine(process.stderr);
  try {
    return await inFile(file, async () => {
      const { description, evaluation, series, files, bath } = await surveyedBath(file, line.onRead);
      const choice: SurveyChoice = {
        ...(axial === undefined ? {} : { bathAxial: axial }),
        ...(radial === undefined ? {} : { bathRadial: radial }),
        ...(stability === undefined ? {} : { bathStability: stability }),
      };
      return {
        name: file,
        evaluation: { files, ...evaluation },
        lines: (layout) => surveyLines(evaluation, series, files, layout),
        statements: () => citedStatements(evaluation, description, files, choice),
        units: { bathStability: "°C", bathAxial: "°C", bathRadial: "°C" },
        bath,
      };
    });
  } finally {
    line.clear();
  }
}
