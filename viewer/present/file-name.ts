/** Longest part of a name, so that a whole name stays readable in a folder. */
const LONGEST = 48;

/** A text as a part of a file's name on any system: letters without marks, digits and hyphens. */
const part = (text: string): string =>
  text
    .replaceAll("ß", "ss")
    .replaceAll("°", "")
    .normalize("NFKD")
    .replace(/\p{M}/gu, "")
    // A point stays within a number alone.
    .replace(/[^\p{L}\p{N}.]|(?<!\d)\.|\.(?!\d)/gu, "-")
    .replace(/-+/g, "-")
    .replace(/^-|-$/g, "")
    .toLowerCase()
    // Cut between words, or within one that is too long by itself.
    .replace(new RegExp(`^(?=.{${LONGEST + 1}})(.{1,${LONGEST}})(?=-)-.*$|^(.{${LONGEST}}).+$`, "u"), "$1$2");

/**
 * The name of a file that is taken away: of what study, of which day, what it is. `steriliser-at-134-c-2026-11-29-budget.xlsx`
 *
 * @param startedAt the moment of the run, or `null` if it is not known
 */
export function fileNameOf(study: string, startedAt: string | null, what: string, ending: string): string {
  const day = startedAt === null ? "" : (/^\d{4}-\d\d-\d\d/.exec(startedAt)?.[0] ?? "");
  return `${[part(study), day, part(what)].filter((piece) => piece !== "").join("-") || "trialband"}.${ending}`;
}
