import type { Spots } from "./controls.ts";
import type { Draft } from "./draft.ts";
import type { Kind } from "./fields.ts";
import type { TableShape } from "./table-shape.ts";

/** What the table needs of the form around it. */
export interface TableHost {
  readonly spots: Spots;
  readonly draft: () => Draft;
  readonly shape: () => TableShape;
  readonly kinds: () => readonly Kind[];
  /** @param where the field in which a change was typed; "" for a change that is a step of its own */
  readonly change: (draft: Draft, where: string) => void;
  /** The fields were drawn anew: what is wrong is to be said at them. */
  readonly drawn: () => void;
  /** Says in words what was done. */
  readonly tell: (words: string) => void;
}
