import { reportOf } from "../errors.ts";
import { loadBudgetStudy } from "../intake/budget-study.ts";
import { evaluateBrought } from "../shelves/survey-uploads.ts";
import { evaluateBroughtCalibration, exampleCalibration, preparedAgain } from "../shelves/brought-calibration.ts";
import { evaluateEvidence } from "../shelves/evaluated-evidence.ts";
import { evaluateOutlook, exampleOutlook } from "../shelves/outlook.ts";
import { openEvidence } from "../shelves/opened-evidence.ts";
import { evaluateOwn, lookAt, seriesOf, type KeptFiles } from "../shelves/own-evidence.ts";
import { evaluateListed, watchBytes } from "../shelves/surveys.ts";
import type { BytesOf, ReadResults, ReadTask } from "./messages.ts";
import type { ThreadAnswer } from "../one-thread.ts";

/** Reads files in the thread that reads files. */
export default async function read(task: ReadTask): Promise<ThreadAnswer<ReadResults[ReadTask["kind"]]>> {
  try {
    return { ok: true, answer: await answerTo(task) };
  } catch (error) {
    return { ok: false, report: reportOf(error) };
  }
}

async function answerTo(task: ReadTask): Promise<ReadResults[ReadTask["kind"]]> {
  switch (task.kind) {
    case "budget": {
      const { name, bytes } = task.file;
      return loadBudgetStudy(watchBytes(name, bytes), task.options);
    }
    case "survey":
      return evaluateBrought(task.files);
    case "listedSurvey":
      return evaluateListed(task.id, task.paths);
    case "ownSurvey":
      return evaluateOwn(task.content, task.own, filesIn(task.bytes));
    case "evidence":
      return evaluateEvidence(task.form, task.content, task.use, filesIn(task.bytes));
    case "evidenceFile":
      return openEvidence(task.file.name, Buffer.from(task.file.bytes));
    case "calibration":
      return task.files === null ? exampleCalibration() : evaluateBroughtCalibration(task.files);
    case "keptCalibration":
      return preparedAgain(task.content);
    case "outlook":
      return typeof task.of === "string" ? exampleOutlook(task.of) : evaluateOutlook(task.of);
    case "looks":
      return lookAt(task.files, filesIn(task.bytes));
    case "series":
      return seriesOf(task.content, filesIn(task.bytes));
  }
}

const filesIn = (bytes: BytesOf): KeptFiles => ({ file: (sha256) => bytes.get(sha256) ?? null });
