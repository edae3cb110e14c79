import { explore, type ExploredFigure, type Problem } from "../../engine/index.ts";
import { loadStudyDocument } from "../shelves/study.ts";
import { problemsOf } from "./problems-of.ts";

/** As many as the command line takes if it is not told otherwise. */
const SCRAMBLINGS = 16;

/** A quick look at a study, or what is wrong with it. */
export interface Explored {
  readonly problems: readonly Problem[];
  readonly explored: Looked | null;
}

interface Figure {
  readonly value: number;
  readonly standardError: number;
}

interface Looked {
  readonly points: number;
  readonly scramblings: number;
  readonly probability: number;
  readonly measurands: Readonly<
    Record<
      string,
      {
        readonly symbol: string;
        readonly meaning: string;
        readonly unit: string;
        readonly estimate: Figure | null;
        readonly standardUncertainty: Figure | null;
        readonly low: Figure;
        readonly high: Figure;
      }
    >
  >;
}

/** @param points of each scrambling: a power of two */
export async function explorationOf(document: unknown, points: number): Promise<Explored> {
  const problems = await problemsOf(document);
  if (problems.length > 0) return { problems, explored: null };
  const { study, model } = await loadStudyDocument(document, null);
  const { measurands, coverage, scramblings } = explore(model, study, { points, scramblings: SCRAMBLINGS });
  return {
    problems: [],
    explored: {
      points,
      scramblings,
      probability: coverage.probability,
      measurands: Object.fromEntries(
        Object.entries(measurands).map(
          ([name, { symbol, meaning, unit, estimate, standardUncertainty, low, high }]) => [
            name,
            {
              symbol,
              meaning,
              unit,
              estimate: figureOf(estimate),
              standardUncertainty: figureOf(standardUncertainty),
              low: figureOf(low)!,
              high: figureOf(high)!,
            },
          ],
        ),
      ),
    },
  };
}

const figureOf = (figure: ExploredFigure | null): Figure | null =>
  figure === null ? null : { value: figure.value, standardError: figure.standardError };
