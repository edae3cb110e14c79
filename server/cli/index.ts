import type { CommandRegistration } from "./command.ts";
import { models } from "./models.ts";
import { run } from "./run.ts";
import { schema } from "./schema.ts";
import { serve } from "./serve.ts";
import { survey } from "./survey.ts";
import { keys } from "./keys.ts";
import { sign } from "./sign.ts";
import { verify } from "./verify.ts";

/** Every command: one line a command, in the order of the help. */
export const commands: readonly CommandRegistration[] = [run, survey, serve, verify, keys, sign, models, schema];
