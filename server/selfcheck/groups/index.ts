import type { CheckGroup } from "../check.ts";
import { closedForms } from "./closed-forms.ts";
import { generator } from "./generator.ts";
import { iec60751 } from "./iec-60751.ts";
import { its90 } from "./its-90.ts";
import { jcgm100 } from "./jcgm-100.ts";
import { jcgm101 } from "./jcgm-101/index.ts";
import { jcgm102 } from "./jcgm-102.ts";
import { jcgm106 } from "./jcgm-106.ts";
import { linearised } from "./linearised.ts";
import { repeatability } from "./repeatability.ts";
import { secondGenerator } from "./second-generator.ts";
import { verdicts } from "./verdicts.ts";

/** Every group of checks: one line a group, in the order of the report. */
export const checkGroups: readonly CheckGroup[] = [
  jcgm101,
  jcgm102,
  jcgm100,
  its90,
  iec60751,
  jcgm106,
  verdicts,
  closedForms,
  linearised,
  generator,
  secondGenerator,
  repeatability,
];
