// A study over one or two quantities: what depends on them, and the baths and fluids of a range.
export { sweepDocumentSchema, type SweepDocument, type SweepRange } from "./document.ts";
export { plannedPoints, readSweep, sweepStudyOf, type PlannedPoint, type StatementsAt } from "./to-study.ts";
export {
  capabilityOf,
  envelopeAt,
  lineAbove,
  roundedUp,
  safetyOfRanges,
  stepAbove,
  type Capability,
  type CapabilityRange,
  type Envelope,
} from "./capability.ts";
