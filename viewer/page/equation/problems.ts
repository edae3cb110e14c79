import { words } from "../later-words.ts";
import { fillText } from "../../present/fill.ts";
import type { EquationAnswer } from "../../api/equations.ts";
import { html, type Child } from "../draw/node.ts";

type Problem = EquationAnswer["problems"][number];

/** The text with a mark under what is wrong; it lies behind the field and is not read aloud. */
export function markedText(text: string, problems: readonly Problem[]): readonly Child[] {
  const pieces: Child[] = [];
  let done = 0;
  for (const { place } of problems.toSorted((a, b) => a.place.from - b.place.from)) {
    if (place.from < done) continue;
    const end = Math.max(place.to, place.from);
    pieces.push(
      text.slice(done, place.from),
      // Where something is missing there is no character to mark: the caret stands where it should begin.
      text.slice(place.from, end).trim() === ""
        ? html("mark", { class: "missing" }, "\u00a0")
        : html("mark", {}, text.slice(place.from, end)),
    );
    done = end;
  }
  return [...pieces, text.slice(done), "\n"];
}

/** "Line 2, character 5" */
function placeWords(text: string, at: number): string {
  const before = text.slice(0, at).split("\n");
  const character = fillText(words.equation.character, { n: String(before.at(-1)!.length + 1) });
  return text.includes("\n") ? fillText(words.equation.line, { line: String(before.length), character }) : character;
}

/** What is wrong, each with its place, which leads there. */
export const problemItems = (
  text: string,
  problems: readonly Problem[],
  id: string,
  goTo: (problem: Problem) => void,
): readonly HTMLElement[] =>
  problems.map((problem, i) =>
    html(
      "li",
      {},
      html(
        "button",
        { type: "button", class: "inline", id: `${id}-${i}`, onclick: () => goTo(problem) },
        fillText(words.equation.at, { place: placeWords(text, problem.place.from) }),
      ),
      fillText(words.equation.expected, { got: problem.got, expected: problem.expected }),
    ),
  );
