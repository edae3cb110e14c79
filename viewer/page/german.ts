import { speakRecord, type MeasurandRecord, type RunRecord } from "../../engine/index.ts";
import { distributionTitles } from "../../engine/distributions/titles.ts";
import { equationIn, translated } from "../present/messages/phrases/index.ts";

/** Names of distributions, by the English ones that a record has. */
const DISTRIBUTIONS = new Map<string, string>(Object.values(distributionTitles).map(({ en, de }) => [en, de]));

/** A text that a record has in English, in German; the English one if there are no words for it. */
export const translate = (text: string): string => translated(text, "de") ?? DISTRIBUTIONS.get(text) ?? text;

const shown = new WeakMap<RunRecord, RunRecord>();

/** A record with its sentences spoken in German from its figures, and with the German words of its model. */
export function recordInGerman(record: RunRecord): RunRecord {
  let german = shown.get(record);
  if (german === undefined) shown.set(record, (german = inGerman(record)));
  return german;
}

function inGerman(record: RunRecord): RunRecord {
  const spoken = speakRecord(record, "de");
  const worded = <T extends { readonly meaning: string }>(of: T): T => ({ ...of, meaning: translate(of.meaning) });
  return {
    ...record,
    model: {
      ...record.model,
      equation: record.model.equation === null ? null : equationIn(record.model.equation, "de"),
      title: translate(record.model.title),
      source: record.model.source === null ? null : translate(record.model.source),
    },
    generator: { ...record.generator, title: translate(record.generator.title) },
    remarks: spoken.remarks.map(({ text }) => text),
    cautions: record.cautions.map(translate),
    inputs: Object.fromEntries(Object.entries(record.inputs).map(([name, input]) => [name, worded(input)])),
    ...(record.calibrationCurve == null
      ? {}
      : {
          calibrationCurve: {
            ...record.calibrationCurve,
            argument: worded(record.calibrationCurve.argument),
            value: worded(record.calibrationCurve.value),
          },
        }),
    measurands: Object.fromEntries(
      Object.entries(record.measurands).map(([name, measurand]) => [
        name,
        withSentences(worded(measurand), spoken.measurands[name]!),
      ]),
    ),
  };
}

type Sentences = ReturnType<typeof speakRecord>["measurands"][string];

function withSentences(measurand: MeasurandRecord, sentences: Sentences): MeasurandRecord {
  const { validation, paired, explanation, linearised, conformity, sensitivity } = measurand;
  const basis = conformity?.tolerance.basis ?? null;
  return {
    ...measurand,
    validation: { ...validation, sentence: sentences.verdict.text },
    ...(paired === undefined ? {} : { paired: { ...paired, sentence: sentences.paired!.text } }),
    ...(linearised === undefined ? {} : { linearised: { ...linearised, sentence: sentences.linearised!.text } }),
    explanation:
      explanation === null
        ? null
        : {
            ...explanation,
            sentence: sentences.explanation!.text,
            recommendation: { ...explanation.recommendation, sentence: sentences.recommendation!.text },
          },
    conformity:
      conformity === null
        ? null
        : {
            ...conformity,
            tolerance: { ...conformity.tolerance, basis: basis === null ? null : translate(basis) },
            // A sentence quotes what sets the limits in the words of the record.
            sentence:
              basis === null
                ? sentences.conformity!.text
                : sentences.conformity!.text.replace(basis, () => translate(basis)),
          },
    sensitivity:
      sensitivity === null
        ? null
        : {
            ...sensitivity,
            sentence: sentences.sensitivity!.text,
            estimators: {
              firstOrder: translate(sensitivity.estimators.firstOrder),
              total: translate(sensitivity.estimators.total),
              interval: translate(sensitivity.estimators.interval),
              contribution: translate(sensitivity.estimators.contribution),
            },
          },
  };
}
