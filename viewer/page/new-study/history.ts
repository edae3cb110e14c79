/** The states that a reader can go back to and forth between. */
export interface History<S> {
  readonly now: () => S;
  /**
   * Takes a new state.
   *
   * @param where changes at one place in a row, such as the letters of one field, are one step; "" is a step of its own
   */
  readonly push: (state: S, where: string) => void;
  /** The next change is a step of its own, wherever it is: the reader has left the field. */
  readonly settle: () => void;
  /** @returns the state before the last step, which is now the present one; `null` if there is none */
  readonly undo: () => S | null;
  readonly redo: () => S | null;
  readonly canUndo: () => boolean;
  readonly canRedo: () => boolean;
}

/** Steps kept; a draft of a hundred rows takes 50 kB. */
const MOST = 200;

export function createHistory<S>(start: S): History<S> {
  let past: S[] = [];
  let present = start;
  let future: S[] = [];
  let place = "";
  const go = (from: S[], to: S[]): S | null => {
    const state = from.pop();
    if (state === undefined) return null;
    to.push(present);
    present = state;
    place = "";
    return state;
  };
  return {
    now: () => present,
    push: (state, where) => {
      if (state === present) return;
      if (where === "" || where !== place) past = [...past.slice(1 - MOST), present];
      place = where;
      present = state;
      future = [];
    },
    settle: () => void (place = ""),
    undo: () => go(past, future),
    redo: () => go(future, past),
    canUndo: () => past.length > 0,
    canRedo: () => future.length > 0,
  };
}
