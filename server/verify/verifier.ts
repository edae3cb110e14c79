import { Fault } from "../errors.ts";
import type { Assembler } from "../runs/assembly/assembler.ts";
import type { Pool } from "../runs/pool/pool.ts";
import { repeatStudy } from "./repeat.ts";
import { verifyRecord, type Verification } from "./verify.ts";

/** How far a verification is. */
export interface VerifyProgress {
  /** Which repetition of the study goes on, from 1. */
  readonly repetition: number;
  readonly trials: number;
  readonly limit: number;
}

/** Verifies records for the people of a server, one at a time: it draws with every worker. */
export interface Verifier {
  /**
   * @param signal ends a verification that nobody waits for any more
   * @throws {Fault} `busy`: another one goes on; `took-too-long`; `cancelled`
   */
  verify(
    content: Uint8Array,
    name: string,
    signal: AbortSignal,
    onProgress: (progress: VerifyProgress) => void,
  ): Promise<Verification>;
}

/** Seconds that a verification may take. */
const MOST_SECONDS = 900;
/** Seconds after which another try is worth while. */
const RETRY_AFTER = 20;

/**
 * @param pool draws the trials; without one the serving thread does, between other requests
 * @param assembler assembles what is repeated, on another thread; without one the serving thread does
 */
export function openVerifier(
  pool: (() => Promise<Pool>) | undefined,
  seconds = MOST_SECONDS,
  assembler?: Assembler,
): Verifier {
  let going = false;
  return {
    async verify(content, name, signal, onProgress) {
      if (going)
        throw new Fault("busy", "A record is being verified already; try again when that has ended.", [], RETRY_AFTER);
      going = true;
      const limit = AbortSignal.timeout(1000 * seconds);
      let repetition = 0;
      try {
        return await verifyRecord(content, name, {
          pool,
          assembler,
          signal: AbortSignal.any([signal, limit]),
          nameFigures: true,
          repeat: (study, reference, options) => {
            repetition += 1;
            return repeatStudy(study, reference, options);
          },
          onProgress: (gathered, prepared) =>
            onProgress({ repetition: Math.max(1, repetition), trials: gathered.trials, limit: prepared.limit }),
        });
      } catch (error) {
        if (limit.aborted && !signal.aborted)
          throw new Fault(
            "took-too-long",
            `The record could not be verified within ${seconds} s; trialband verify takes as long as it needs.`,
          );
        throw error;
      } finally {
        going = false;
      }
    },
  };
}
