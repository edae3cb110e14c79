// @module-tag long
// Runs that take long, with every sharing of the work. Needs dist/ (the tests' set-up builds it).
import { EVERY_SHARING, sameRecord } from "./same-record.ts";

sameRecord(
  [
    ["harrowfen/steriliser-134", {}],
    // More trials than are kept, of measurands together, and no task ends where keeping does.
    ["published/polar-010", { trials: 2_700_000 }],
  ],
  EVERY_SHARING,
);
