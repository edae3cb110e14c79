import { conformityFacts } from "../conformity/conformity-facts.ts";
import { linearisedFacts } from "../convolution/linearised-facts.ts";
import { dependenceOf, type Dependence } from "../dependence/dependence.ts";
import { knowledgeOfInput } from "../distributions/index.ts";
import { InputError } from "../errors.ts";
import { explanationFacts } from "../explanation/explanation-facts.ts";
import { pairedFacts } from "../paired/paired-facts.ts";
import { recommendationFacts } from "../explanation/recommendation-facts.ts";
import { remarkFacts } from "../remarks/remark-facts.ts";
import { sensitivityFacts } from "../sensitivity/sensitivity-facts.ts";
import { verdictFacts } from "../validation/verdict-facts.ts";
import type { MeasurandFigures, RunFigures } from "../record/figures.ts";
import type { MeasurandRecord, RunRecord } from "../record/record.ts";
import { former } from "./en/former.ts";
import { languages, type Language } from "./languages.ts";
import { say, sayOne, type Messages } from "./messages.ts";

/** A sentence or two, and their language. */
export interface Spoken {
  readonly text: string;
  readonly language: Language;
}

/** The sentences of one measurand; `null` for parts that its record does not have. */
export interface SpokenMeasurand {
  readonly verdict: Spoken;
  readonly paired: Spoken | null;
  readonly explanation: Spoken | null;
  readonly recommendation: Spoken | null;
  readonly linearised: Spoken | null;
  readonly conformity: Spoken | null;
  readonly sensitivity: Spoken | null;
}

/**
 * The sentences of a record in a language asked for: those of each measurand by its name, and the remarks on the whole
 * run in the record's order. A sentence that cannot be made again from the record's figures stays in English, and says
 * so.
 */
export interface SpokenRecord {
  readonly measurands: Readonly<Record<string, SpokenMeasurand>>;
  readonly remarks: readonly Spoken[];
}

/** The sentences of one measurand at their places in a record; `null` for parts that it does not have. */
export interface MeasurandSentences {
  readonly validation: { readonly sentence: string };
  readonly paired: { readonly sentence: string } | null;
  readonly explanation: { readonly sentence: string; readonly recommendation: { readonly sentence: string } } | null;
  readonly linearised: { readonly sentence: string } | null;
  readonly conformity: { readonly sentence: string } | null;
  readonly sensitivity: { readonly sentence: string; readonly reason: string | null } | null;
}

/** Every English sentence that is made from a run's figures, at its place in a record. */
export interface RunSentences {
  readonly measurands: Readonly<Record<string, MeasurandSentences>>;
  readonly remarks: readonly string[];
}

/** Wordings of the same facts in English: today's, and that of versions up to 0.5.0. */
export type Wording = "today" | "former";

const WORDINGS: Readonly<Record<Wording, Messages>> = { today: languages.en, former };

/** The English sentences of a run's figures: to be put into a record, and to be held against those of a filed one. */
export function sentencesOfRun(run: RunFigures, dependence: Dependence, wording: Wording = "today"): RunSentences {
  const messages = WORDINGS[wording];
  return {
    measurands: Object.fromEntries(
      Object.entries(run.measurands).map(([name, figures]) => [name, sentencesOfMeasurand(run, figures, messages)]),
    ),
    remarks: remarkFacts(run, dependence).map((fact) => sayOne(messages.remarks, fact)),
  };
}

function sentencesOfMeasurand(run: RunFigures, figures: MeasurandFigures, messages: Messages): MeasurandSentences {
  const { verdict, paired, explanation, recommendation, linearised, conformity, sensitivity } = sentencesOf(
    messages,
    run,
    figures,
  );
  return {
    validation: { sentence: verdict },
    paired: paired === null ? null : { sentence: paired },
    explanation: explanation === null ? null : { sentence: explanation, recommendation: { sentence: recommendation! } },
    linearised: linearised === null ? null : { sentence: linearised },
    conformity: conformity === null ? null : { sentence: conformity },
    sensitivity:
      sensitivity === null
        ? null
        : { reason: figures.sensitivity!.interaction === null ? sensitivity : null, sentence: sensitivity },
  };
}

/** A run's figures with their English sentences, as in a record. */
export function withSentences(run: RunFigures, dependence: Dependence): RunRecord {
  const sentences = sentencesOfRun(run, dependence);
  return {
    ...run,
    measurands: Object.fromEntries(
      Object.entries(run.measurands).map(([name, figures]) => [
        name,
        measurandWithSentences(figures, sentences.measurands[name]!),
      ]),
    ),
    remarks: sentences.remarks,
  };
}

function measurandWithSentences(figures: MeasurandFigures, sentences: MeasurandSentences): MeasurandRecord {
  const { validation, paired, explanation, linearised, conformity, sensitivity, ...others } = figures;
  return {
    ...others,
    ...(linearised === undefined ? {} : { linearised: { ...linearised, ...sentences.linearised! } }),
    validation: { ...validation, ...sentences.validation },
    ...(paired === undefined ? {} : { paired: { ...paired, ...sentences.paired! } }),
    explanation:
      explanation === null
        ? null
        : {
            ...explanation,
            ...sentences.explanation!,
            recommendation: { ...explanation.recommendation, ...sentences.explanation!.recommendation },
          },
    conformity: conformity === null ? null : { ...conformity, ...sentences.conformity! },
    sensitivity: sensitivity === null ? null : { ...sensitivity, ...sentences.sensitivity! },
  };
}

/**
 * The sentences of a record in a language. A record contains its English ones; those of another language are made from
 * its figures. If the figures do not reproduce the record's English sentence, since another version worded it, the
 * English one is returned, so that no translation states anything that the record does not.
 */
export function speakRecord(record: RunRecord, language: Language): SpokenRecord {
  return {
    measurands: Object.fromEntries(
      Object.entries(record.measurands).map(([name, measurand]) => [name, speakMeasurand(record, measurand, language)]),
    ),
    remarks: speakRemarks(record, language),
  };
}

/** English in which a record may have its sentences. */
const ENGLISH: readonly Messages[] = Object.values(WORDINGS);

function speakMeasurand(record: RunRecord, measurand: MeasurandRecord, language: Language): SpokenMeasurand {
  const { validation, paired, explanation, linearised, conformity, sensitivity } = measurand;
  const carried: Sentences = {
    verdict: validation.sentence,
    paired: paired?.sentence ?? null,
    explanation: explanation?.sentence ?? null,
    recommendation: explanation?.recommendation.sentence ?? null,
    linearised: linearised?.sentence ?? null,
    conformity: conformity?.sentence ?? null,
    sensitivity: sensitivity?.sentence ?? null,
  };
  const spoken = language === "en" ? carried : sentencesOf(languages[language], record, measurand);
  const again = language === "en" ? [carried] : ENGLISH.map((messages) => sentencesOf(messages, record, measurand));
  const pick = <T extends keyof Sentences>(topic: T): Sentences[T] extends string ? Spoken : Spoken | null => {
    const [text, own] = [spoken[topic], carried[topic]];
    return (
      own === null || text === null
        ? null
        : again.some((made) => made[topic] === own)
          ? { text, language }
          : { text: own, language: "en" }
    ) as ReturnType<typeof pick<T>>;
  };
  return {
    verdict: pick("verdict"),
    paired: pick("paired"),
    explanation: pick("explanation"),
    recommendation: pick("recommendation"),
    linearised: pick("linearised"),
    conformity: pick("conformity"),
    sensitivity: pick("sensitivity"),
  };
}

function speakRemarks(record: RunRecord, language: Language): readonly Spoken[] {
  const dependence = language === "en" ? null : dependenceAgain(record);
  const facts = dependence === null ? [] : remarkFacts(record, dependence);
  const spoken = new Map(
    facts.flatMap((fact) =>
      ENGLISH.map(({ remarks }) => [sayOne(remarks, fact), sayOne(languages[language].remarks, fact)] as const),
    ),
  );
  return record.remarks.map((remark) => {
    const text = spoken.get(remark);
    return text === undefined ? { text: remark, language: "en" } : { text, language };
  });
}

/** How the inputs of a filed record were drawn together, from its study; `null` if this version refuses the study. */
function dependenceAgain({ inputs, study }: RunRecord): Dependence | null {
  const names = Object.keys(inputs);
  try {
    const knowledge = Object.fromEntries(
      names.map((name) => [name, knowledgeOfInput(inputs[name]!, study.inputs[name]!, `inputs.${name}`)]),
    );
    return dependenceOf(names, knowledge, study.inputs, study.correlations);
  } catch (error) {
    if (error instanceof InputError) return null;
    throw error;
  }
}

interface Sentences {
  readonly verdict: string;
  readonly paired: string | null;
  readonly explanation: string | null;
  readonly recommendation: string | null;
  readonly linearised: string | null;
  readonly conformity: string | null;
  readonly sensitivity: string | null;
}

function sentencesOf(messages: Messages, run: RunFigures, figures: MeasurandFigures): Sentences {
  const { paired, explanation, linearised, conformity, sensitivity, symbol } = figures;
  return {
    verdict: say(messages.verdict, verdictFacts(run, figures)),
    paired: paired === undefined ? null : say(messages.paired, pairedFacts(run, figures, paired)),
    explanation: explanation === null ? null : say(messages.explanation, explanationFacts(run, figures, explanation)),
    recommendation:
      explanation === null ? null : say(messages.recommendation, recommendationFacts(run, figures, explanation)),
    linearised: linearised === undefined ? null : say(messages.linearised, linearisedFacts(run, figures, linearised)),
    conformity: conformity === null ? null : say(messages.conformity, conformityFacts(conformity, figures)),
    sensitivity: sensitivity === null ? null : say(messages.sensitivity, sensitivityFacts(run, symbol, sensitivity)),
  };
}
