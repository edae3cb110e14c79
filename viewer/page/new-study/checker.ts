import { words } from "../later-words.ts";
import type { Problem } from "../../../engine/index.ts";
import { RequestError } from "../api.ts";
import type { StudyDocument } from "./draft.ts";

/** Pause in typing after which the server is asked, in milliseconds. */
export const PAUSE = 300;

/** What the server answered about a study: its problems, or why it could not be asked. */
export type Checked =
  | { readonly problems: readonly Problem[]; readonly failure: null }
  | { readonly problems: null; readonly failure: string };

export interface Checker {
  /** Checks the study once the reader pauses. */
  readonly soon: () => void;
  /** Checks the study now. The answer is that of the latest question, if a later one was asked meanwhile. */
  readonly now: () => Promise<Checked>;
}

const UNTITLED: Problem = { place: "title", value: "nothing", accepted: words.studyForm.untitled };

/**
 * @param study as it is written at the time of asking
 * @param ask the server's check of a study
 * @param answered takes the answer to the latest question; an answer to an older one comes too late
 */
export function createChecker(
  study: () => StudyDocument,
  ask: (study: StudyDocument) => Promise<{ readonly problems: readonly Problem[] }>,
  answered: (answer: Checked) => void,
): Checker {
  let timer: ReturnType<typeof setTimeout> | undefined;
  let latest: Promise<Checked> | null = null;

  const now = async (): Promise<Checked> => {
    clearTimeout(timer);
    const mine = check(study(), ask);
    latest = mine;
    for (;;) {
      const waited: Promise<Checked> = latest;
      const answer = await waited;
      if (waited !== latest) continue;
      if (waited === mine) answered(answer);
      return answer;
    }
  };

  return {
    now,
    soon: () => {
      clearTimeout(timer);
      timer = setTimeout(() => void now(), PAUSE);
    },
  };
}

async function check(
  { title, ...rest }: StudyDocument,
  ask: (study: StudyDocument) => Promise<{ readonly problems: readonly Problem[] }>,
): Promise<Checked> {
  try {
    // The server refuses a study without a title before it checks anything else.
    const { problems } = await ask({ ...rest, title: title === "" ? "untitled" : title });
    return { problems: title === "" ? [UNTITLED, ...problems] : problems, failure: null };
  } catch (error) {
    if (!(error instanceof RequestError)) throw error;
    return { problems: null, failure: error.fault.message };
  }
}
