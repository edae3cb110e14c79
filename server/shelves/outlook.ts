import { join } from "node:path";
import { evaluateHistory, evaluateLaboratories, readLaboratories } from "../../models/index.ts";
import type { OpenedOutlook, OutlookKind } from "../../viewer/api/outlooks.ts";
import { refused } from "../errors.ts";
import { readJson } from "../intake/document.ts";
import { loadHistory } from "../intake/history.ts";
import { inFile } from "../intake/in-file.ts";
import { watchFile } from "../intake/watched-file.ts";
import { packageRoot } from "../package-root.ts";
import { documentIn, withLaidFiles } from "./laid-files.ts";
import { loadPlan } from "./plan.ts";
import type { BroughtFile } from "./survey-uploads.ts";

const EXAMPLES: Readonly<Record<OutlookKind, string>> = {
  plan: "range/plan.json",
  history: "history/reference-HR-02.json",
  comparison: "interlaboratory/bath-minus-40.json",
};

/** The field that a document of each kind has and the others have not. */
const TOLD_BY: Readonly<Record<OutlookKind, string>> = {
  plan: "levers",
  history: "subject",
  comparison: "laboratories",
};
const KINDS = Object.keys(TOLD_BY) as readonly OutlookKind[];

/** One of the examples, for who has no document yet. */
export const exampleOutlook = (kind: OutlookKind): Promise<OpenedOutlook> =>
  opened(kind, join(packageRoot(), "examples", EXAMPLES[kind]));

/**
 * Reads a plan, a history or a comparison of laboratories from its files: the document and those that it names.
 *
 * @throws {Fault} no such document among the files, or more than one; and what its own reader says
 */
export async function evaluateOutlook(files: readonly BroughtFile[]): Promise<OpenedOutlook> {
  const found = files.flatMap((file) => {
    const document = documentIn(file) ?? {};
    const kind = KINDS.find((one) => Object.hasOwn(document, TOLD_BY[one]));
    return kind === undefined ? [] : [{ file, kind }];
  });
  if (found.length !== 1)
    throw refused(
      "files",
      files.map(({ name }) => name).join(", "),
      "one plan, history or comparison of laboratories that ends in .json, with the files that it names",
    );
  const [{ file, kind }] = found as [(typeof found)[number]];
  return withLaidFiles(files, file, (path) => opened(kind, path));
}

async function opened(kind: OutlookKind, path: string): Promise<OpenedOutlook> {
  switch (kind) {
    case "plan": {
      const { title, plan, proposed, safety, files } = await loadPlan(path, {}, { ownModels: false });
      return { kind, title, plan: plain(plan), study: plain(proposed.study), safety, files };
    }
    case "history": {
      const { history, files } = await loadHistory(path);
      const found = await inFile(path, () => evaluateHistory(history));
      return { kind, title: history.title, history: plain(found), files };
    }
    case "comparison": {
      const watched = await watchFile(path);
      const document = await readJson(watched.source);
      return inFile(path, () => {
        const comparison = readLaboratories(document);
        const found = evaluateLaboratories(comparison);
        return {
          kind,
          title: comparison.title,
          comparison: plain(comparison),
          found: plain(found),
          files: [watched.trace()],
        };
      });
    }
  }
}

/** An evaluation as the interface's document has it: a JSON object. */
const plain = (value: object): Readonly<Record<string, unknown>> => ({ ...value });
