import { words } from "../later-words.ts";
import { counted } from "../counted.ts";
import type { MappingQuestion } from "../../api/budget-tables.ts";
import { html } from "../draw/node.ts";
import type { SessionActions } from "./session.ts";
import { tableWords } from "./table-speech.ts";

/** What the table leaves open, each question with its answers: one is chosen, and the table is read anew. */
export const questionsPart = (questions: readonly MappingQuestion[], { state }: SessionActions): HTMLElement[] =>
  questions.length === 0
    ? []
    : [
        html(
          "section",
          { class: "panel import-questions", "aria-labelledby": "import-questions-title" },
          html("h2", { id: "import-questions-title" }, counted(words.import.questions, questions.length)),
          ...questions.map((question, i) => questionField(question, i, state)),
        ),
      ];

function questionField(
  { question, because, answers }: MappingQuestion,
  i: number,
  state: SessionActions["state"],
): HTMLElement {
  const name = `import-question-${i}`;
  return html(
    "fieldset",
    { class: "import-question", "aria-describedby": `${name}-because` },
    html("legend", {}, tableWords(question)),
    html("p", { class: "note", id: `${name}-because` }, tableWords(because)),
    html(
      "div",
      { class: "import-answers" },
      answers.map(({ answer, states }, n) =>
        html("button", { type: "button", id: `${name}-${n}`, onclick: () => state(states) }, tableWords(answer)),
      ),
    ),
  );
}
