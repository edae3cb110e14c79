import type { RunHead } from "../../api/runs.ts";
import type { OwnStudy } from "../../api/own-studies.ts";
import { matches } from "../library/listing.ts";

/** Studies that have every word of a search in their name, tags, model or the titles and notes of their runs. */
export const foundStudies = (
  studies: readonly OwnStudy[],
  runs: readonly RunHead[],
  search: string,
): readonly OwnStudy[] =>
  studies.filter(({ id, name, tags, model }) =>
    matches(search, [
      name,
      ...tags,
      model,
      ...runs.filter(({ own }) => own === id).flatMap(({ title, note }) => [title, note]),
    ]),
  );

/** The runs of a study by its versions, both newest first. */
export function versionsOf(
  study: Pick<OwnStudy, "id">,
  runs: readonly RunHead[],
): readonly { readonly version: number; readonly runs: readonly RunHead[] }[] {
  const own = runs.filter((run) => run.own === study.id);
  const versions = [...new Set(own.map(({ studyVersion }) => studyVersion))].toSorted((a, b) => b - a);
  return versions.map((version) => ({ version, runs: own.filter(({ studyVersion }) => studyVersion === version) }));
}
