import type { Laboratory } from "../../api/laboratory.ts";
import { BLANK, type Draft } from "../new-study/draft.ts";

/** A seed that no other study has: 12 letters and digits. */
const freshSeed = (): string =>
  [...crypto.getRandomValues(new Uint8Array(12))].map((byte) => (byte % 36).toString(36)).join("");

/** An empty form with what the laboratory's studies begin with; the usual values where it has not answered. */
export const freshDraft = (laboratory: Laboratory | null): Draft =>
  laboratory === null
    ? BLANK
    : {
        ...BLANK,
        laboratory: laboratory.name,
        custom: laboratory.coverage,
        probability: String(laboratory.probability),
        factor: String(laboratory.factor),
        significantDigits: laboratory.digits === 1 ? "1" : "2",
        seed: laboratory.seed === "fresh" ? freshSeed() : BLANK.seed,
      };
