import { readdir, readFile, stat } from "node:fs/promises";
import { join, relative, resolve, sep } from "node:path";
import { show } from "../../engine/index.ts";
import { evaluateSurvey, surveyStatements } from "../../models/index.ts";
import { Fault } from "../errors.ts";
import { parseJson } from "../loading/study.ts";
import { packageRoot } from "../package-root.ts";
import { inRecord } from "../records/in-record.ts";
import { loadSurvey } from "../records/index.ts";
import type { RouteRegistration } from "./route.ts";

/** Largest description and largest log that a request may have evaluated; longer ones are for the command line. */
const LARGEST_DESCRIPTION = 1_000_000;
const LARGEST_LOG = 20_000_000;
/** Evaluations kept, the latest asked for. */
const KEPT = 8;

/** Survey descriptions at hand and their evaluations, with what a page needs to draw them. */
export const surveys: RouteRegistration = (router) => {
  const shelf = surveyShelf(join(packageRoot(), "examples", "survey"));
  router.get("/surveys", async (_request, response) => {
    response.json(await shelf.list());
  });
  router.get("/surveys/:id", async (request, response) => {
    response.json(await shelf.evaluate(request.params.id));
  });
};

/** A survey description as a list shows it. */
export interface ListedSurvey {
  readonly id: string;
  readonly title: string;
  readonly notes: string | null;
  readonly log: string;
}

/** A survey, evaluated: what `GET /api/surveys/:id` gives. */
export type EvaluatedSurvey = Awaited<ReturnType<typeof evaluate>>;

/** The survey descriptions in a folder, with their logs beside them. */
export function surveyShelf(folder: string): { list(): Promise<ListedSurvey[]>; evaluate(id: string): Promise<EvaluatedSurvey> } {
  const kept = new Map<string, { readonly stamp: string; readonly evaluation: Promise<EvaluatedSurvey> }>();
  return {
    async list() {
      const files = (await readdir(folder).catch(() => [])).filter((name) => name.endsWith(".json")).toSorted();
      const listed: ListedSurvey[] = [];
      for (const file of files) {
        const path = join(folder, file);
        if ((await stat(path)).size > LARGEST_DESCRIPTION) continue;
        const document = await parseJson(await readFile(path, "utf8"), file);
        if (!isSurvey(document)) continue;
        const { title, notes = null, log } = document;
        listed.push({ id: file.slice(0, -".json".length), title, notes, log: log.file });
      }
      return listed;
    },
    async evaluate(id) {
      const { path, log } = await find(folder, id);
      const stamp = `${await stampOf(path)} ${await stampOf(log)}`;
      let found = kept.get(id);
      if (found?.stamp !== stamp) {
        const evaluation = evaluate(id, path);
        found = { stamp, evaluation };
        // What failed is tried again the next time.
        evaluation.catch(() => kept.get(id)?.evaluation === evaluation && kept.delete(id));
      }
      // Put last: the first is the one not asked for the longest.
      kept.delete(id);
      kept.set(id, found);
      if (kept.size > KEPT) kept.delete(kept.keys().next().value!);
      return found.evaluation;
    },
  };
}

/** A survey's JSON has steps and a log; certificates and readings lie beside it. */
function isSurvey(document: unknown): document is { title: string; notes?: string; log: { file: string } } {
  const { title, steps, positions, log } = (document ?? {}) as Record<string, unknown>;
  return typeof title === "string" && Array.isArray(steps) && typeof positions === "object" && typeof (log as { file?: unknown } | undefined)?.file === "string";
}

/** @throws {Fault} no such survey, or one too large to be evaluated for a page */
async function find(folder: string, id: string): Promise<{ readonly path: string; readonly log: string }> {
  const missing = new Fault("no-such-file", `There is no survey ${show(id)}.`);
  if (!/^[\w.-]{1,100}$/.test(id)) throw missing;
  const path = join(folder, `${id}.json`);
  await within(path, LARGEST_DESCRIPTION, missing);
  const document = await parseJson(await readFile(path, "utf8"), `${id}.json`);
  if (!isSurvey(document)) throw missing;
  const log = resolve(folder, document.log.file);
  const way = relative(folder, log);
  if (way === "" || way.startsWith("..") || way.startsWith(sep)) throw new Fault("no-such-file", `The log of survey ${show(id)} does not lie beside it.`);
  await within(log, LARGEST_LOG, new Fault("no-such-file", `The log of survey ${show(id)} is missing.`));
  return { path, log };
}

async function within(path: string, most: number, missing: Fault): Promise<void> {
  const found = await stat(path).catch(() => {
    throw missing;
  });
  if (!found.isFile()) throw missing;
  if (found.size > most) throw new Fault("too-large", `A file of the survey has ${found.size} bytes; accepted are at most ${most}. The command line takes longer ones: trialband survey.`);
}

const stampOf = async (path: string): Promise<string> => {
  const { mtimeMs, size } = await stat(path);
  return `${mtimeMs}/${size}`;
};

const evaluate = (id: string, path: string) =>
  inRecord(`${id}.json`, async () => {
    const { description, logs, series } = await loadSurvey(path);
    const evaluation = evaluateSurvey(description, logs);
    return {
      id,
      positions: description.positions,
      reference: description.reference,
      calibrationMinutes: description.calibrationMinutes,
      arrangement: description.arrangement,
      notes: series.notes,
      evaluation,
      statements: surveyStatements(evaluation),
    };
  });
