import { budget } from "./budget.ts";
import { certificate } from "./certificate.ts";
import type { CommandRegistration } from "./command.ts";
import { immersion } from "./immersion.ts";
import { models } from "./models.ts";
import { readings } from "./readings.ts";
import { report } from "./report.ts";
import { run } from "./run.ts";
import { schema } from "./schema.ts";
import { selfcheck } from "./selfcheck.ts";
import { serve } from "./serve.ts";
import { survey } from "./survey.ts";
import { keys } from "./keys.ts";
import { sign } from "./sign.ts";
import { verify } from "./verify.ts";

/** Every command: one line a command, in the order of the help. */
export const commands: readonly CommandRegistration[] = [run, survey, readings, immersion, certificate, budget, serve, verify, report, selfcheck, keys, sign, models, schema];
