import type { SurveyEvaluation } from "../../models/index.ts";
import { fillText } from "./fill.ts";
import type { Speech } from "./statement.ts";
import { duration, moment } from "./survey-figures.ts";

type Sampling = Pick<SurveyEvaluation["samplings"][string], "samples" | "interval" | "from" | "to">;

/** How often a thermometer was read, from when to when. */
export const samplingText = ({ samples, interval, from, to }: Sampling, { messages, numbers }: Speech): string =>
  fillText(messages.surveyPanels.sampled, {
    count: numbers.whole(samples),
    interval: duration(interval, numbers),
    from: moment(from, numbers),
    to: moment(to, numbers),
  });

/** One caution of a survey's bath: a warning with what it is called, or a plain sentence. */
export interface CautionText {
  readonly head: string | null;
  readonly text: string;
}

type Judged = Pick<NonNullable<SurveyEvaluation["safety"]>, "unknown" | "cautions"> & {
  readonly warnings: readonly { readonly place: string; readonly warning: string; readonly because: string }[];
};

/**
 * What a survey's bath demands of those who work at it, warnings first; a bath without a name gives a sentence that states this.
 *
 * @param placed whether a warning names the field of the description that it is about
 */
export function cautionTexts(safety: Judged | null, { messages }: Speech, placed: boolean): readonly CautionText[] {
  const words = messages.surveyPanels;
  const plain = (text: string): CautionText => ({ head: null, text });
  if (safety === null) return [plain(words.noBath)];
  const { warnings, unknown, cautions } = safety;
  return [
    ...warnings.map(({ place, warning, because }) => ({
      head: placed ? fillText(words.warningAt, { place }) : words.warning,
      text: fillText(words.caution, { warning, because }),
    })),
    ...(unknown.length === 0 ? [] : [plain(fillText(words.notJudged, { what: unknown.join("; ") }))]),
    ...cautions.map(plain),
  ];
}
