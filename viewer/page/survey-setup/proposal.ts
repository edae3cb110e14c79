import type { LogLook } from "../../api/evidence.ts";
import type { SetUp } from "./draft.ts";
import { newThermometer } from "./log-part.ts";

/** Takes over into the draft what a log seems to have: how its times are read, and its thermometers. */
export function takeProposal(draft: SetUp, file: string, { proposal }: LogLook): void {
  const log = draft.logs.find((one) => one.file === file)!;
  if (proposal.headingRow === 0) log.fields["headingRow"] = "0";
  if (proposal.time !== null) log.fields["time"] = proposal.time;
  if (proposal.timeOfDay !== null) log.fields["timeOfDay"] = proposal.timeOfDay;
  if (proposal.dates !== null) log.fields["dates"] = proposal.dates;
  for (const { name, column, unit } of proposal.thermometers) {
    const made = newThermometer(draft, file, column ?? name, unit);
    draft.thermometers.push(made);
    for (const step of draft.steps) step.at[made.name] = "";
  }
}
