import { speakRecord, type MeasurandRecord, type RunRecord, type Spoken } from "../../engine/index.ts";
import { distributionTitles } from "../../engine/distributions/titles.ts";
import { equationIn, translated } from "../present/messages/phrases/index.ts";

/** Names of distributions, by the English ones that a record has. */
const DISTRIBUTIONS = new Map<string, string>(Object.values(distributionTitles).map(({ en, de }) => [en, de]));

/** A text that a record has in English, in German; the English one if there are no words for it. */
export const translate = (text: string): string => translated(text, "de") ?? DISTRIBUTIONS.get(text) ?? text;

/** Sentences of records that another version worded: they stay as they are filed. */
const asFiled = new Set<string>();

/** Whether a sentence on the page is one that a record has in English alone. */
export const isAsFiled = (sentence: string): boolean => asFiled.has(sentence);

const shown = new WeakMap<RunRecord, RunRecord>();

/** A record with its sentences spoken in German from its figures, and with the German words of its model. */
export function recordInGerman(record: RunRecord): RunRecord {
  let german = shown.get(record);
  if (german === undefined) shown.set(record, (german = inGerman(record)));
  return german;
}

function textOf({ text, language }: Spoken): string {
  if (language === "en") asFiled.add(text);
  return text;
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
    remarks: spoken.remarks.map(textOf),
    sweep: record.sweep === null ? null : sweepInGerman(record.sweep),
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

const sweepInGerman = (sweep: NonNullable<RunRecord["sweep"]>): NonNullable<RunRecord["sweep"]> => ({
  ...sweep,
  quantity: translate(sweep.quantity),
  ...(sweep.second === undefined ? {} : { second: { ...sweep.second, quantity: translate(sweep.second.quantity) } }),
});

type Sentences = ReturnType<typeof speakRecord>["measurands"][string];

function withSentences(measurand: MeasurandRecord, sentences: Sentences): MeasurandRecord {
  const { validation, paired, explanation, linearised, conformity, sensitivity } = measurand;
  const basis = conformity?.tolerance.basis ?? null;
  return {
    ...measurand,
    validation: { ...validation, sentence: textOf(sentences.verdict) },
    ...(paired === undefined ? {} : { paired: { ...paired, sentence: textOf(sentences.paired!) } }),
    ...(linearised === undefined ? {} : { linearised: { ...linearised, sentence: textOf(sentences.linearised!) } }),
    explanation:
      explanation === null
        ? null
        : {
            ...explanation,
            sentence: textOf(sentences.explanation!),
            recommendation: { ...explanation.recommendation, sentence: textOf(sentences.recommendation!) },
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
                ? textOf(sentences.conformity!)
                : textOf(sentences.conformity!).replace(basis, () => translate(basis)),
          },
    sensitivity:
      sensitivity === null
        ? null
        : {
            ...sensitivity,
            sentence: textOf(sentences.sensitivity!),
            estimators: {
              firstOrder: translate(sensitivity.estimators.firstOrder),
              total: translate(sensitivity.estimators.total),
              interval: translate(sensitivity.estimators.interval),
              contribution: translate(sensitivity.estimators.contribution),
            },
          },
  };
}
