import type { Check } from "../../check.ts";
import { between, near } from "../../judge.ts";
import { printedIn } from "./source.ts";

/** 7.9.4: trials that the adaptive procedure makes, as tables 2 to 4 print them. */
export const ADAPTIVE = [
  { id: "additive-normal", clause: "9.2.2, table 2", count: 1_230_000, bounds: [615_000, 2_460_000] },
  { id: "additive-rectangular", clause: "9.2.3, table 3", count: 1_020_000, bounds: [510_000, 2_040_000] },
  { id: "additive-one-dominant", clause: "9.2.4, table 4", count: 30_000, bounds: [20_000, 150_000] },
] as const;

/** The adaptive procedure on the inputs of one table. */
export function adaptive({ id, clause, count, bounds }: (typeof ADAPTIVE)[number]): Check {
  return {
    title: `7.9.4, adaptive procedure, ${id}`,
    source: printedIn(clause),
    async lines(context) {
      const record = await context.example(id, { trials: "adaptive" });
      const { settling } = record.measurands["y"]!.monteCarlo;
      const greatest = Math.max(...Object.values(settling.doubled).map((value) => value ?? Number.NaN));
      const basis =
        id === "additive-one-dominant"
          ? "the count is random; as eight seeds of another program spread"
          : "the count is random; half to twice";
      return [
        between(`${id}: trials of the adaptive procedure`, count, record.trials.count, bounds, basis),
        near(`${id}: 2s of the least settled figure when it stops`, 0, greatest, settling.limit, "δ/5 (8.2)", {
          source: "JCGM 101:2008, 7.9.4 and 8.2",
        }),
      ];
    },
  };
}
