import type { Messages } from "../messages.ts";
import { conformity } from "./conformity.ts";
import { explanation } from "./explanation.ts";
import { paired } from "./paired.ts";
import { linearised } from "./linearised.ts";
import { recommendation } from "./recommendation.ts";
import { remarks } from "./remarks.ts";
import { sensitivity } from "./sensitivity.ts";
import { verdict } from "./verdict.ts";

/** All sentences in English. */
export const en: Messages = {
  verdict,
  paired,
  explanation,
  recommendation,
  linearised,
  conformity,
  sensitivity,
  remarks,
};
