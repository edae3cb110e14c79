import { words } from "../later-words.ts";
import { symbolText } from "../../present/symbol.ts";
import type { Checked } from "./checker.ts";
import type { Draft } from "./draft.ts";
import type { Kind } from "./fields.ts";
import { lacksOf, type Lack } from "./lacks.ts";
import { placeInForm, problemWords } from "./places.ts";
import type { Findings } from "./problem-report.ts";
import { lacksOfRequests } from "./request-lacks.ts";
import { shownRows, type TableShape } from "./table-shape.ts";
import { namesOf } from "./to-study.ts";

/**
 * What is known of a draft's faults: what the form sees at once, and what the server found beyond that.
 *
 * @param answer of the server about the draft as it is now; `null` before it has come
 */
export function findingsOf(draft: Draft, shape: TableShape, kinds: readonly Kind[], answer: Checked | null): Findings {
  const own = [...lacksOf(draft, shape, kinds), ...lacksOfRequests(draft, kinds)];
  if (answer === null) return { lacks: own, checked: "waiting" };
  if (answer.problems === null) return { lacks: own, checked: { failure: answer.failure } };
  const known = wordsFor(draft, shape);
  const places = new Set(own.map(({ place }) => place));
  // A row of which the form already says what it lacks is not told of twice.
  const rows = new Set(own.flatMap(({ place }) => /^(?:inputs|results)\.[^.]+/.exec(place)?.[0] ?? []));
  const found = answer.problems.flatMap((problem): Lack[] => {
    const place = placeInForm(problem.place, draft);
    const row = /^(?:inputs|results)\.[^.]+/.exec(place)?.[0];
    if (places.has(place) || (row !== undefined && rows.has(row)) || (place === "rows" && rows.size > 0)) return [];
    return [{ place, words: `${problemWords({ ...problem, place }, fieldOf(place), known)}.` }];
  });
  return { lacks: [...own, ...found], checked: "yes" };
}

/** A place as far as it names a field: items of a list lie within it. */
const fieldOf = (place: string): string =>
  place.replace(/(\.\d+)+(\..*)?$/, (found, _n, after: string | undefined) => (after === undefined ? "" : found));

/** What a reader knows the names of a study's quantities by. */
function wordsFor(draft: Draft, shape: TableShape): ReadonlyMap<string, string> {
  const names = namesOf(draft);
  // A name that is a plain word may as well be one of the sentence.
  const isName = ([name]: readonly [string, string]): boolean => /[A-Z_0-9]/.test(name);
  const all = [
    ...shownRows(draft, shape).map((row): [string, string] => [
      names.get(row.key) ?? row.key,
      symbolText(row.symbol) || row.meaning,
    ]),
    ...draft.results.map((result): [string, string] => [
      names.get(result.key)!,
      symbolText(result.symbol) || words.studyForm.theResult,
    ]),
  ];
  return new Map(all.filter(isName));
}
