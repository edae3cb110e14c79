import type { EvidenceVersion } from "../../api/evidence.ts";
import type { EvaluatedSurvey } from "../../api/surveys.ts";
import { isDated } from "../../present/survey-figures.ts";
import { readSurvey } from "../api.ts";
import { html } from "../draw/node.ts";
import { trendFold, trendPicture, trendWidth } from "../draw/trend.ts";
import { words as pageWords } from "../later-words.ts";

const words = pageWords.survey.history;
/** Most versions that are drawn, the newest ones: each evaluation is read for it. */
const MOST = 30;

interface Evaluated {
  readonly at: number;
  readonly evaluation: EvaluatedSurvey["evaluation"];
}

/**
 * Half-widths of a bath over the surveys of it that were kept: stability, vertical and horizontal differences. Folded away;
 * the evaluations are read when a reader opens it.
 *
 * @param versions the newest first
 * @returns `null` for fewer than two: there is no history yet
 */
export function surveyHistory(versions: readonly EvidenceVersion[]): HTMLElement | null {
  if (versions.length < 2) return null;
  return trendFold("survey-history", words.open, async (body) => {
    const found = await Promise.all(versions.slice(0, MOST).map(evaluated));
    const inTime = found.toSorted((a, b) => a.at - b.at);
    const width = trendWidth(body);
    const picture = (what: string, halfWidth: (one: Evaluated["evaluation"]) => number | null): HTMLElement | null => {
      const points = inTime.flatMap(({ at, evaluation }) => {
        const kelvin = halfWidth(evaluation);
        return kelvin === null ? [] : [{ at, value: 1000 * kelvin, half: null }];
      });
      return points.length < 2 ? null : html("div", {}, trendPicture(`${what} / mK`, what, points, width));
    };
    body.replaceChildren(
      html("p", { class: "note" }, `${words.source} ${pageWords.trend.lines}`),
      html(
        "div",
        { class: "trend-pictures" },
        picture(words.stability, ({ stability }) => stability.halfWidth),
        picture(words.axial, ({ axial }) => axial?.quantity.halfWidth ?? null),
        picture(words.radial, ({ radial }) => radial?.quantity.halfWidth ?? null),
      ),
    );
  });
}

/** A version's evaluation, at the moment at which its log begins, or was saved if the log counts from its beginning. */
async function evaluated({ at, digests }: EvidenceVersion): Promise<Evaluated> {
  const { evaluation } = await readSurvey(digests);
  const { from } = evaluation.stay;
  return { at: isDated(from) ? 1000 * from : Date.parse(at), evaluation };
}
