import type { RunRecord } from "../../../engine/index.ts";
import { mathematics } from "../../present/mathematics.ts";
import { own } from "../../present/own.ts";
import { symbolsOf } from "../../present/equation.ts";
import { checkEquation, RequestError } from "../api.ts";
import { mathematicsNode } from "../draw/mathematics.ts";
import { html } from "../draw/node.ts";
import { equationNode } from "../draw/symbol.ts";
import type { ReadEquation, StatedQuantities } from "./field.ts";

/** What was read, by the parameters: a sheet is drawn many times, its equation is asked for once. */
const asked = new Map<string, Promise<ReadEquation | null>>();

/** What a study says of its equation. */
interface Stated {
  readonly title: string;
  readonly parameters?: Readonly<Record<string, unknown>> | undefined;
}

async function read({ title, parameters }: Stated): Promise<ReadEquation | null> {
  const { equation, quantities = {} } = parameters ?? {};
  if (typeof equation !== "string") return null;
  try {
    const answer = await checkEquation({ equation, quantities: quantities as StatedQuantities, title });
    return answer.read;
  } catch (error) {
    // Without the server, or for a record of an earlier version, the equation stays in plain letters.
    if (error instanceof RequestError) return null;
    throw error;
  }
}

/**
 * The equation of a model: as mathematics if the study states it as text, which the server takes apart.
 *
 * @param plain the same in plain letters, which stands until then
 */
export function typedEquation(model: string, study: Stated, plain: HTMLElement): HTMLElement {
  if (model !== "equation") return plain;
  const key = JSON.stringify(study.parameters);
  const found = asked.get(key) ?? read(study);
  asked.set(key, found);
  const place = html("span", {}, plain);
  void found.then((typed) => {
    if (typed === null) return;
    const lines = mathematics(typed.equations, (name) => own(typed.symbols, name) ?? name, typed.texts);
    place.replaceChildren(mathematicsNode(lines, "record-equation"));
  });
  return place;
}

/** The equation of a record. */
export const recordEquation = (record: RunRecord): HTMLElement =>
  typedEquation(record.model.id, record.study, equationNode(record.model.equation ?? "", symbolsOf(record)));
