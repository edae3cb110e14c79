import { readTable, RequestError } from "../api.ts";
import type { StatedMapping, TableReading } from "../../api/budget-tables.ts";
import type { Problem } from "../../../engine/index.ts";
import { joinMappings } from "../../present/join-mappings.ts";
import { NOTHING_SAID, type Describing } from "./describing.ts";
import { forget, keepable, recall, remember, type Remembered } from "./memory.ts";
import { keepSession, keptSession } from "./kept-session.ts";

/** One import: a file, what was stated of it, and how it is read. */
export interface Session {
  readonly file: File | null;
  readonly stated: StatedMapping;
  readonly describing: Describing;
  readonly reading: TableReading | null;
  /** Why the file cannot be read at all. */
  readonly refused: { readonly message: string; readonly problems: readonly Problem[] } | null;
  readonly busy: boolean;
  /** What was kept from an earlier table of this shape and is used for this one. */
  readonly recalled: Remembered | null;
  /** Shape under which this table's statements are kept. */
  readonly keptAs: string | null;
  readonly canUndo: boolean;
  readonly canRedo: boolean;
}

export interface SessionActions {
  readonly open: (file: File) => Promise<void>;
  /** Joins what the reader states to what was stated before. */
  readonly state: (more: StatedMapping) => void;
  /** Takes this for everything that is stated. */
  readonly replace: (stated: StatedMapping) => void;
  readonly describe: (change: Partial<Describing>) => void;
  /** The study as it stands, with what was typed last; `null` while anything is left open. */
  readonly study: () => Promise<TableReading["study"]>;
  readonly undo: () => void;
  readonly redo: () => void;
  readonly forgetKept: () => void;
  /** Reads the file that was open before the page was loaded, if the browser has kept it. */
  readonly resume: () => Promise<void>;
}

const BLANK: Session = {
  file: null,
  stated: {},
  describing: NOTHING_SAID,
  reading: null,
  refused: null,
  busy: false,
  recalled: null,
  keptAs: null,
  canUndo: false,
  canRedo: false,
};
/** What is typed goes to the server once the typing pauses. */
const PAUSE = 300;

/** Keeps an import and has it read anew at every change. */
export function createSession(changed: (session: Session) => void): SessionActions {
  let session = BLANK;
  let before: StatedMapping[] = [];
  let after: StatedMapping[] = [];
  let asked = 0;
  let waiting: ReturnType<typeof setTimeout> | undefined;

  const set = (change: Partial<Session>): void => {
    session = { ...session, ...change, canUndo: before.length > 0, canRedo: after.length > 0 };
    changed(session);
  };

  const read = async (): Promise<TableReading | null> => {
    const { file, stated, describing } = session;
    if (file === null) return null;
    const mine = (asked += 1);
    set({ busy: true });
    try {
      const reading = await readTable(file, stated, { ...describing });
      if (mine !== asked) return null;
      set({ reading, refused: null, busy: false });
      return reading;
    } catch (error) {
      if (!(error instanceof RequestError)) throw error;
      // The sheet of before stays: what was stated can be mended, or undone.
      if (mine === asked)
        set({ busy: false, refused: { message: error.fault.message, problems: error.fault.problems } });
      return null;
    }
  };

  const keep = (reading: TableReading): void => {
    const { file, stated } = session;
    if (reading.study === null || file === null) return;
    const one = keepable(
      stated,
      reading.rows,
      reading.mapping.headings,
      file.name,
      new Date().toISOString().slice(0, 10),
    );
    if (one === null) return;
    remember(one);
    set({ keptAs: one.shape });
  };

  const readAnew = async (): Promise<void> => {
    const { file, stated, describing } = session;
    if (file !== null) void keepSession({ file, stated, describing });
    const reading = await read();
    if (reading !== null) keep(reading);
  };

  const take = (stated: StatedMapping): void => {
    before.push(session.stated);
    after = [];
    set({ stated });
    void readAnew();
  };

  const begin = async (file: File, stated: StatedMapping, describing: Describing): Promise<void> => {
    before = [];
    after = [];
    set({ ...BLANK, file, stated, describing });
    void keepSession({ file, stated, describing });
    const reading = await read();
    if (reading === null || Object.keys(stated).length > 0) return;
    const known = recall(reading.rows);
    if (known === null) return;
    before.push({});
    set({ stated: known.states, recalled: known.kept, keptAs: known.kept.shape });
    await read();
  };

  return {
    open: (file) => begin(file, {}, NOTHING_SAID),
    state: (more) => take(joinMappings(session.stated, more)),
    replace: take,
    describe: (change) => {
      set({ describing: { ...session.describing, ...change } });
      clearTimeout(waiting);
      waiting = setTimeout(() => {
        waiting = undefined;
        void readAnew();
      }, PAUSE);
    },
    study: async () => {
      if (waiting !== undefined) {
        clearTimeout(waiting);
        waiting = undefined;
        await readAnew();
      }
      return session.refused === null ? (session.reading?.study ?? null) : null;
    },
    undo: () => {
      const stated = before.pop();
      if (stated === undefined) return;
      after.push(session.stated);
      set({ stated });
      void readAnew();
    },
    redo: () => {
      const stated = after.pop();
      if (stated === undefined) return;
      before.push(session.stated);
      set({ stated });
      void readAnew();
    },
    forgetKept: () => {
      if (session.keptAs !== null) forget(session.keptAs);
      set({ keptAs: null, recalled: null });
    },
    resume: async () => {
      const kept = await keptSession();
      if (kept !== null && session.file === null) await begin(kept.file, kept.stated, kept.describing);
    },
  };
}
