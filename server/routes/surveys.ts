import { createHash } from "node:crypto";
import { readdir, readFile, stat } from "node:fs/promises";
import { join, relative, resolve, sep } from "node:path";
import { LRUCache } from "lru-cache";
import { show } from "../../engine/index.ts";
import {
  evaluatedSurvey,
  fittingStudies as fittingList,
  surveyFilesQuery,
  surveyList,
  surveyStudy,
  surveyStudyRequest,
  type EvaluatedSurvey,
  type FittingStudies,
  type ListedSurvey,
  type SurveyList,
  type SurveyStudy,
} from "../../viewer/api/surveys.ts";
import { Fault } from "../errors.ts";
import { NEVER } from "../one-thread.ts";
import { bytes, json, type Described } from "../openapi/described.ts";
import { parseJson } from "../intake/json.ts";
import { packageRoot } from "../package-root.ts";
import { bodyOf } from "./body.ts";
import { leaving } from "./leaving.ts";
import type { RouteRegistration } from "./route.ts";
import {
  digestId,
  isDigestId,
  surveyedFrom,
  type EvaluatedFiles,
  type Surveyed,
  type SurveyPaths,
} from "../shelves/surveys.ts";
import { fittingStudies, studyOf, withOwn } from "./survey-study.ts";
import { LARGEST_DESCRIPTION, LARGEST_LOG, openedSurveys } from "../shelves/survey-uploads.ts";

const ONE = { id: "Id of a listed survey, or the digests of its files." };
/** Faults of a survey that is evaluated when it is asked for. */
const FAULTS_OF_ONE = ["no-such-file", "not-json", "too-large", "bad-input"] as const;

const LIST = {
  id: "listSurveys",
  summary: "The surveys that come with Trialband, and those that were opened",
  answers: { 200: { description: "Each survey in short.", content: json(surveyList) } },
} satisfies Described;

const OPEN = {
  id: "openSurvey",
  summary: "Evaluate a survey from its files",
  description:
    "Its description and its log: their bytes one after the other, with a name and a size for each in the query. It is kept until the server stops.",
  query: surveyFilesQuery,
  body: bytes,
  answers: { 201: { description: "The survey, evaluated.", content: json(evaluatedSurvey) } },
  faults: ["busy", "worker-lost"],
} satisfies Described;

const READ = {
  id: "getSurvey",
  summary: "A survey, evaluated",
  description: "Temperatures in °C, differences in K, times in s.",
  path: ONE,
  answers: { 200: { description: "The survey, evaluated.", content: json(evaluatedSurvey) } },
  faults: FAULTS_OF_ONE,
} satisfies Described;

const STUDIES = {
  id: "listStudiesForSurvey",
  summary: "The listed studies that a survey's quantities can go into",
  path: ONE,
  answers: { 200: { description: "Those of the survey's own bath first.", content: json(fittingList) } },
  faults: FAULTS_OF_ONE,
} satisfies Described;

const STUDY = {
  id: "makeStudyFromSurvey",
  summary: "A study with a survey's quantities in place of its own",
  path: ONE,
  body: { ...json(surveyStudyRequest), optional: true },
  answers: { 200: { description: "The study, and what a person should know of it.", content: json(surveyStudy) } },
  faults: [...FAULTS_OF_ONE, "no-such-study", "no-such-model", "model-not-finite"],
} satisfies Described;

/** Evaluations kept, the latest asked for. */
const KEPT = 8;

/** Surveys available and those a person opens: their evaluations, and the studies that come of them. */
export const surveys: RouteRegistration = (router, { shelf: studies, runs, desk, evidence, reader }) => {
  const shelf = surveyShelf(join(packageRoot(), "examples", "survey"), (id, paths) =>
    // The first who asks may leave: others wait for the same evaluation.
    reader.listedSurvey(id, paths, NEVER),
  );
  const opened = openedSurveys((files, signal) => reader.survey(files, signal));
  /** By its id, or by the digests of its files wherever these are. */
  const find = async (id: string): Promise<Surveyed> =>
    opened.find(id) ?? (await saved(id)) ?? shelf.find((isDigestId(id) ? await shelf.named(id) : null) ?? id);
  /** Evaluated once: a version that was saved never changes. */
  const evaluated = new LRUCache<string, Surveyed>({ max: KEPT });
  const saved = async (id: string): Promise<Surveyed | null> => {
    const known = isDigestId(id) ? evaluated.get(id) : null;
    if (known !== undefined) return known;
    const content = evidence.byDigests(id);
    if (content === null || content.kind !== "survey") return null;
    const surveyed = surveyedFrom(await reader.ownSurvey(content, content.id, evidence, NEVER));
    evaluated.set(id, surveyed);
    return surveyed;
  };

  router.get("/surveys", "read", LIST, async (_request, response) => {
    const own = opened.list().map(({ shown: { id, files, remark, evaluation } }): ListedSurvey => ({
      id,
      title: evaluation.title,
      notes: remark,
      log: files[1]!.name,
      opened: true,
    }));
    const kept = evidence
      .list()
      .filter(({ kind }) => kind === "survey")
      .map(({ id, title }): ListedSurvey => {
        const { versions, files } = evidence.read(id);
        const log = files.map(({ name }) => name).join(", ");
        return { id: versions[0]?.digests ?? "", title, notes: null, log, draft: id };
      });
    response.json([...kept, ...(await shelf.list()), ...own] satisfies SurveyList);
  });
  router.post("/surveys", "run", OPEN, async (request, response) => {
    const { shown } = await opened.open(request, bodyOf(surveyFilesQuery, request.query), leaving(response));
    response.status(201).json(shown satisfies EvaluatedSurvey);
  });
  router.get("/surveys/:id", "read", READ, async (request, response) => {
    response.json((await find(request.params.id)).shown satisfies EvaluatedSurvey);
  });
  router.get("/surveys/:id/studies", "read", STUDIES, async (request, response) => {
    response.json(
      (await fittingStudies(await find(request.params.id), withOwn(studies, { runs, desk }))) satisfies FittingStudies,
    );
  });
  router.post("/surveys/:id/study", "read", STUDY, async (request, response) => {
    response.json(
      (await studyOf(
        await find(request.params.id),
        request.body,
        withOwn(studies, { runs, desk }),
      )) satisfies SurveyStudy,
    );
  });
};

/** The survey descriptions in a folder, with their logs beside them. */
export interface SurveyShelf {
  list(): Promise<ListedSurvey[]>;
  /** @throws {Fault} `no-such-file`, or what cannot be used of it */
  find(id: string): Promise<Surveyed>;
  evaluate(id: string): Promise<EvaluatedSurvey>;
  /** The survey whose files have these digests. */
  named(digests: string): Promise<string | null>;
}

/** @param evaluate evaluates a survey from its files, `evaluateListed` in a thread of its own */
export function surveyShelf(
  folder: string,
  evaluate: (id: string, paths: SurveyPaths) => Promise<EvaluatedFiles>,
): SurveyShelf {
  const kept = new Map<string, { readonly stamp: string; readonly surveyed: Promise<Surveyed> }>();
  const digests = new Map<string, { readonly stamp: string; readonly sha256: string }>();

  const list = async (): Promise<ListedSurvey[]> => {
    const files = (await readdir(folder).catch(() => [])).filter((name) => name.endsWith(".json")).toSorted();
    const listed: ListedSurvey[] = [];
    for (const file of files) {
      const path = join(folder, file);
      if ((await stat(path)).size > LARGEST_DESCRIPTION) continue;
      const document = parseJson(await readFile(path), file);
      if (!isSurvey(document)) continue;
      const { title, notes = null, log } = document;
      listed.push({ id: file.slice(0, -".json".length), title, notes, log: log.file });
    }
    return listed;
  };

  const find = async (id: string): Promise<Surveyed> => {
    const paths = await pathsOf(folder, id);
    const stamp = (await Promise.all([paths.path, ...paths.logs.values()].map(stampOf))).join(" ");
    let found = kept.get(id);
    if (found?.stamp !== stamp) {
      const surveyed = evaluate(id, paths).then(surveyedFrom);
      found = { stamp, surveyed };
      // What failed is tried again the next time.
      surveyed.catch(() => kept.get(id)?.surveyed === surveyed && kept.delete(id));
    }
    // Put last: the first is the one unused for the longest time.
    kept.delete(id);
    kept.set(id, found);
    if (kept.size > KEPT) kept.delete(kept.keys().next().value!);
    return found.surveyed;
  };

  const digestOf = async (path: string): Promise<string> => {
    const stamp = await stampOf(path);
    const known = digests.get(path);
    if (known?.stamp === stamp) return known.sha256;
    const sha256 = createHash("sha256")
      .update(await readFile(path))
      .digest("hex");
    digests.set(path, { stamp, sha256 });
    return sha256;
  };

  return {
    list,
    find,
    evaluate: async (id) => (await find(id)).shown,
    async named(wanted) {
      for (const { id } of await list()) {
        // A survey whose log is missing is not the one.
        const paths = await pathsOf(folder, id).catch(() => null);
        if (paths === null) continue;
        const files = [
          { name: id, sha256: await digestOf(paths.path) },
          ...(await Promise.all(
            [...paths.logs.values()].map(async (log) => ({ name: id, sha256: await digestOf(log) })),
          )),
        ];
        if (digestId(files) === wanted) return id;
      }
      return null;
    },
  };
}

interface ShelfSurvey {
  readonly title: string;
  readonly notes?: string;
  readonly log: { readonly file: string; readonly more?: readonly { readonly file: string }[] };
}

/** A survey's JSON has steps and a log; certificates and readings lie beside it. */
function isSurvey(document: unknown): document is ShelfSurvey {
  const { title, steps, positions, log } = (document ?? {}) as Record<string, unknown>;
  return (
    typeof title === "string" &&
    Array.isArray(steps) &&
    typeof positions === "object" &&
    typeof (log as { file?: unknown } | undefined)?.file === "string"
  );
}

/** @throws {Fault} no such survey, or one too large to be evaluated for a page */
async function pathsOf(folder: string, id: string): Promise<SurveyPaths> {
  const missing = new Fault(
    "no-such-file",
    isDigestId(id)
      ? "No listed survey has the files of this address. If they were opened on this page, open them again: they are kept until the server stops."
      : `There is no survey ${show(id)}.`,
  );
  if (!/^[\w.-]{1,100}$/.test(id)) throw missing;
  const path = join(folder, `${id}.json`);
  await within(path, LARGEST_DESCRIPTION, missing);
  const document = parseJson(await readFile(path), `${id}.json`);
  if (!isSurvey(document)) throw missing;
  const logs = new Map<string, string>();
  for (const { file } of [document.log, ...(document.log.more ?? [])]) {
    const log = resolve(folder, file);
    const way = relative(folder, log);
    if (way === "" || way.startsWith("..") || way.startsWith(sep))
      throw new Fault("no-such-file", `The log of survey ${show(id)} does not lie beside it.`);
    await within(log, LARGEST_LOG, new Fault("no-such-file", `The log of survey ${show(id)} is missing.`));
    logs.set(file, log);
  }
  return { path, logs };
}

async function within(path: string, most: number, missing: Fault): Promise<void> {
  const found = await stat(path).catch(() => {
    throw missing;
  });
  if (!found.isFile()) throw missing;
  if (found.size > most)
    throw new Fault(
      "too-large",
      `A file of the survey has ${found.size} bytes; expected at most ${most}. The command line takes longer ones: trialband survey.`,
    );
}

const stampOf = async (path: string): Promise<string> => {
  const { mtimeMs, size } = await stat(path);
  return `${mtimeMs}/${size}`;
};
