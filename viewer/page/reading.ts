/**
 * How a sheet is shown: the choices of its panels, by name. They stand in the address behind the run, so that
 * a link brings back the same view. Each panel reads its own choices and takes a value it does not know for none.
 */
export type Reading = Readonly<Record<string, string>>;

/** Fields of the address that name what is shown, not how. */
const NAMING = new Set(["run", "study", "measurand"]);
const NAME = /^[a-z]+$/;
const LONGEST = 300;

/** The choices in the part of the address after #, if that names a run. */
export function readReading(hash: string): Reading {
  const fields = new URLSearchParams(hash.replace(/^#/, ""));
  if (!fields.has("run")) return {};
  return Object.fromEntries(
    [...fields].filter(
      ([name, value]) => !NAMING.has(name) && NAME.test(name) && value !== "" && value.length <= LONGEST,
    ),
  );
}

/** The choices as the end of an address; empty if there are none. */
export const writeReading = (reading: Reading): string =>
  Object.entries(reading)
    .map(([name, value]) => `&${name}=${encodeURIComponent(value)}`)
    .join("");

/** The reading with some choices changed; `null` takes one back. */
export function changed(reading: Reading, change: Readonly<Record<string, string | null>>): Reading {
  const all = { ...reading, ...change };
  return Object.fromEntries(Object.entries(all).filter((entry): entry is [string, string] => entry[1] !== null));
}
