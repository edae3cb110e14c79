import { RequestError } from "../api.ts";
import { words } from "../language.ts";
import type { Shown } from "../shown.ts";
import type { State, Store, Trouble } from "../state.ts";

/** The code of a view, which is loaded when it is first asked for. */
export interface RoomLoader {
  readonly isLoaded: (kind: Shown["kind"]) => boolean;
  readonly loadRoom: (kind: Shown["kind"]) => Promise<void>;
}

/** What every action stands on: the state, and what is on the sheet. */
export interface ActionContext {
  readonly get: () => State;
  readonly set: (change: Partial<State>) => void;
  /** Shows why something was not done; errors that are not the server's answer are thrown again. */
  readonly trouble: (title: string, error: unknown) => void;
  /** Asks for another view. The answer stays true until a later one is asked for: an older answer comes too late. */
  readonly ask: () => () => boolean;
  /** Puts something on the sheet, and stops what was kept up to date for the view before. */
  readonly show: (shown: Shown) => void;
  /** Puts on the sheet what was not asked for by an address, and an address beside it: what was asked before comes too late. */
  readonly showAt: (address: string, shown: Shown) => void;
  /** Puts on the sheet what no address would bring back. */
  readonly showWithoutAddress: (shown: Shown) => void;
  /** What stops the updates of the view on the sheet, once another is shown. */
  readonly whenLeft: (stop: () => void) => void;
}

/** Pause before the code of a view is asked for again, in ms. */
const AGAIN = 3000;

const NOBODY = (): void => {};

const NOT_LOADED: Trouble = { title: words.rooms.notLoaded, message: words.rooms.loadAgain, problems: [] };

export function createContext(store: Store, { isLoaded, loadRoom }: RoomLoader): ActionContext {
  let stop = NOBODY;
  let asked = 0;

  const ask = (): (() => boolean) => {
    const mine = (asked += 1);
    return () => mine === asked;
  };

  let last: Shown | null = null;

  const put = (shown: Shown): void => {
    stop();
    stop = NOBODY;
    store.set({ shown, busy: false, trouble: null });
  };

  const show = (shown: Shown): void => {
    last = shown;
    if (isLoaded(shown.kind)) return put(shown);
    store.set({ busy: true });
    const load = (quiet: boolean): void => {
      loadRoom(shown.kind).then(
        () => {
          if (last === shown) put(shown);
        },
        () => {
          if (last !== shown) return;
          if (!quiet) store.set({ busy: false, trouble: NOT_LOADED });
          // The server may come back: what was asked for is then shown, and the notice goes.
          setTimeout(() => load(true), AGAIN);
        },
      );
    };
    load(false);
  };

  const showAt = (address: string, shown: Shown): void => {
    ask();
    history.pushState(null, "", address);
    show(shown);
  };

  return {
    get: store.get,
    set: store.set,
    ask,
    show,
    trouble: (title, error) => {
      if (!(error instanceof RequestError)) throw error;
      const { message, problems } = error.fault;
      const ofServer = error.status === 0 ? ({ offline: true } as const) : ({ english: true } as const);
      store.set({ busy: false, trouble: { title, message, ...ofServer, problems } });
    },
    showAt,
    showWithoutAddress: (shown) => showAt(location.pathname + location.search, shown),
    whenLeft: (next) => {
      stop = next;
    },
  };
}
