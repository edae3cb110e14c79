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

async function read({ study }: RunRecord): Promise<ReadEquation | null> {
  const { equation, quantities = {} } = study.parameters ?? {};
  try {
    const answer = await checkEquation({
      equation: equation as string,
      quantities: quantities as StatedQuantities,
      title: study.title,
    });
    return answer.read;
  } catch (error) {
    // Without the server, or for a record of an earlier version, the equation stays in plain letters.
    if (error instanceof RequestError) return null;
    throw error;
  }
}

/** The equation of a record: as mathematics if a study states it as text, which the server takes apart. */
export function recordEquation(record: RunRecord): HTMLElement {
  const { id, equation } = record.model;
  const plain = equationNode(equation ?? "", symbolsOf(record));
  if (id !== "equation") return plain;
  const key = JSON.stringify(record.study.parameters);
  const found = asked.get(key) ?? read(record);
  asked.set(key, found);
  const place = html("span", {}, plain);
  void found.then((typed) => {
    if (typed === null) return;
    const lines = mathematics(typed.equations, (name) => own(typed.symbols, name) ?? name, typed.texts);
    place.replaceChildren(mathematicsNode(lines, "record-equation"));
  });
  return place;
}
