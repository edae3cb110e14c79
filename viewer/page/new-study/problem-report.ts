import type { Problem } from "../../../engine/index.ts";
import { html, type Child } from "../draw/node.ts";
import { problemList } from "../trouble.ts";
import type { Checked } from "./checker.ts";
import type { Spot, Spots } from "./controls.ts";
import { byPlace, isTold, problemWords } from "./places.ts";

/** Problems listed by name beneath the form. */
const LISTED = 6;

/** What is still wrong: at each field once the reader has been there, and in a list beneath the form. */
export interface ProblemReport {
  readonly element: HTMLElement;
  readonly show: (answer: Checked) => void;
  /** The reader has been at a place: its problems are shown there from now on. */
  readonly touch: (place: string) => void;
  /** A run was asked for: every problem is shown at its field, and the first one gets the focus. */
  readonly showAll: () => void;
  /** Another study is written: nothing was touched yet. */
  readonly clear: () => void;
}

/** @param isKept whether this browser keeps what is written */
export function createProblemReport(spots: Spots, isKept: () => boolean): ProblemReport {
  const element = html("div", { class: "left-to-do", id: "left-to-do" });
  let problems: readonly Problem[] = [];
  let touched = new Set<string>();
  let attempted = false;

  const draw = (): void => {
    const found = byPlace(problems, new Set(spots.keys()));
    for (const spot of new Set(spots.values())) {
      // The field of an equation says itself what is wrong with its text.
      if (spot.control.dataset.checked === "itself") continue;
      spot.message.textContent = "";
      spot.control.removeAttribute("aria-invalid");
    }
    for (const [place, here] of found) {
      const spot = spots.get(place);
      if (spot === undefined || spot.control.dataset.checked === "itself" || !(attempted || isTold(place, touched)))
        continue;
      spot.message.textContent = here.map((problem) => problemWords(problem, place)).join("; ");
      spot.control.setAttribute("aria-invalid", "true");
    }
    element.replaceChildren(...leftToDo(found));
  };

  const leftToDo = (found: ReadonlyMap<string, readonly Problem[]>): HTMLElement[] => {
    const keeping = html(
      "p",
      { class: "note" },
      isKept()
        ? "What you write is kept in this browser until you begin another."
        : "This browser keeps nothing: save the study as a file before you leave the page.",
    );
    if (problems.length === 0) return [html("p", { id: "ready" }, html("strong", {}, "Ready to run.")), keeping];
    const named = [...found].flatMap(([place]) => spots.get(place) ?? []);
    const elsewhere = found.get("") ?? [];
    return [
      html(
        "p",
        {},
        html(
          "strong",
          {},
          `${problems.length} ${problems.length === 1 ? "thing is" : "things are"} still to be stated or mended`,
        ),
        named.length > 0 ? ": " : ".",
        listOf(named),
      ),
      ...(elsewhere.length > 0 ? [problemList(elsewhere)] : []),
      keeping,
    ];
  };

  const listOf = (named: readonly Spot[]): Child => [
    named
      .slice(0, LISTED)
      .map((spot, i): Child => [
        i === 0 ? "" : ", ",
        html(
          "button",
          { type: "button", class: "inline", id: `to-${spot.place.replaceAll(".", "-")}`, onclick: () => goTo(spot) },
          spot.name,
        ),
      ]),
    named.length > LISTED ? ` and ${named.length - LISTED} more.` : named.length > 0 ? "." : null,
  ];

  const touch = (place: string): void => {
    touched.add(place);
    draw();
  };
  const goTo = ({ place, control }: Spot): void => {
    touch(place);
    control.focus();
    control.scrollIntoView({ block: "center" });
  };

  return {
    element,
    touch,
    show: ({ problems: found, failure }) => {
      if (found === null) {
        element.replaceChildren(html("p", { class: "cut" }, `The study cannot be checked. ${failure}`));
        return;
      }
      problems = found;
      draw();
    },
    showAll: () => {
      attempted = true;
      draw();
      const [first] = byPlace(problems, new Set(spots.keys())).keys();
      const spot = spots.get(first ?? "");
      if (spot !== undefined) goTo(spot);
      else element.scrollIntoView({ block: "center" });
    },
    clear: () => {
      touched = new Set();
      attempted = false;
    },
  };
}
