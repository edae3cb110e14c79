import type { EndMoves } from "../record/explanation.ts";
import type { MeasurandFigures } from "../record/figures.ts";

/** What an explanation leaves open at an endpoint: what its parts do not add up to, or what paired trials do not know. */
export const leftOver = ({ paired }: Pick<MeasurandFigures, "paired">, [low, high]: EndMoves): number =>
  Math.max(
    Math.abs(low),
    Math.abs(high),
    paired?.kind === "figures" ? 2 * Math.max(...paired.standardErrors.interval) : 0,
  );
