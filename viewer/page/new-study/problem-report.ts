import { words as pageWords } from "../later-words.ts";
import { fillText } from "../../present/fill.ts";
import { speech } from "../language.ts";
import { counted } from "../counted.ts";
import { html, redraw, type Child } from "../draw/node.ts";
import type { Spot, Spots } from "./controls.ts";
import type { Lack } from "./lacks.ts";
import { byPlace, isTold } from "./places.ts";

/** Fields that the line at the end names; the others are one click away. */
const LISTED = 4;

/** What is known of a draft's faults. */
export interface Findings {
  readonly lacks: readonly Lack[];
  /** Whether the server has looked at the draft as it is now; "" while it has not, else why it could not. */
  readonly checked: "yes" | "waiting" | { readonly failure: string };
}

/** What is still wrong: at each field once the reader has been there, and counted at the end of the form, with a link to each. */
export interface ProblemReport {
  readonly element: HTMLElement;
  readonly show: (findings: Findings) => void;
  /** The reader has been at a place: its problems are shown there from now on. */
  readonly touch: (place: string) => void;
  /** A run was asked for: every problem is shown at its field, and the first one gets the focus. */
  readonly showAll: () => void;
  /** Another study is written: nothing was touched yet. */
  readonly clear: () => void;
  /** The fields were drawn anew. */
  readonly redraw: () => void;
}

/** What parts thousands in the language of the page, and is read as a decimal sign all the same. */
const [PARTS, SIGN, REMARK] =
  speech.numbers.decimalSign === ","
    ? ([".", ",", pageWords.studyLacks.point] as const)
    : ([",", ".", pageWords.studyLacks.comma] as const);
const MISREAD = new RegExp(String.raw`^[+\-−]?[1-9]\d{0,2}[${PARTS}]\d{3}$`);

/** A figure that some would read otherwise is said as it is read: "1,000" is 1 in English, as "1.000" is in German. */
function remarkOn(control: HTMLElement): string {
  if (!(control instanceof HTMLInputElement) || !control.matches(".figure, [data-column]")) return "";
  const text = control.value.trim();
  if (!FIGURES.has(control.dataset["column"] ?? "value") || !MISREAD.test(text)) return "";
  return fillText(REMARK, { text, read: text.replace(PARTS, SIGN) });
}
/** Columns that take one figure; a field outside the table has none. */
const FIGURES: ReadonlySet<string> = new Set(["value", "first", "second", "nu", "sensitivity"]);

/** @param isKept whether this browser keeps what is written */
export function createProblemReport(spots: Spots, isKept: () => boolean): ProblemReport {
  const element = html("div", { class: "left-to-do", id: "left-to-do" });
  let findings: Findings = { lacks: [], checked: "waiting" };
  let touched = new Set<string>();
  let attempted = false;

  /** Says at its field what is wrong there. */
  const mark = (): void => {
    const found = byPlace(findings.lacks, new Set(spots.keys()));
    for (const spot of new Set(spots.values())) {
      // The field of an equation says itself what is wrong with its text.
      if (spot.control.dataset["checked"] === "itself") continue;
      spot.message.textContent = "";
      spot.control.removeAttribute("aria-invalid");
    }
    for (const { place, control, message } of spots.values())
      if (control.dataset["checked"] !== "itself" && (attempted || isTold(place, touched)))
        message.textContent = remarkOn(control);
    for (const [place, here] of found) {
      const spot = spots.get(place);
      if (spot === undefined || spot.control.dataset["checked"] === "itself") continue;
      if (!(attempted || isTold(place, touched))) continue;
      spot.message.textContent = [...new Set(here.map(({ words }) => words))].join(" ");
      spot.control.setAttribute("aria-invalid", "true");
    }
  };
  const draw = (): void => {
    mark();
    redraw(element, () => element.replaceChildren(...leftToDo(byPlace(findings.lacks, new Set(spots.keys())))));
  };

  const leftToDo = (found: ReadonlyMap<string, readonly Lack[]>): HTMLElement[] => {
    const keeping = html(
      "span",
      { class: "note" },
      isKept() ? pageWords.studyLacks.kept : pageWords.studyLacks.notKept,
    );
    const { lacks, checked } = findings;
    if (typeof checked === "object")
      return [
        html("p", { class: "cut" }, fillText(pageWords.studyLacks.notChecked, { why: checked.failure }), keeping),
      ];
    if (lacks.length === 0)
      return [
        checked === "yes"
          ? html("p", { id: "ready" }, html("strong", {}, pageWords.studyLacks.ready), " ", keeping)
          : html("p", { id: "checking" }, html("strong", {}, pageWords.studyLacks.checking), " ", keeping),
      ];
    const named = [...found].flatMap(([place]) => spots.get(place) ?? []);
    const elsewhere = found.get("") ?? [];
    const rest = named.slice(LISTED);
    return [
      html(
        "p",
        { id: "to-do" },
        html("strong", {}, counted(pageWords.studyLacks.left, lacks.length)),
        named.length > 0 ? ": " : ". ",
        links(named.slice(0, LISTED)),
        named.length > 0 && rest.length === 0 ? ". " : " ",
        keeping,
      ),
      ...(rest.length === 0
        ? []
        : [
            html(
              "details",
              { class: "more-to-do" },
              html(
                "summary",
                { id: "more-to-do" },
                fillText(pageWords.studyLacks.moreFields, { n: String(rest.length) }),
              ),
              html("p", {}, links(rest)),
            ),
          ]),
      ...(elsewhere.length === 0
        ? []
        : [
            html(
              "ul",
              { class: "sentences" },
              elsewhere.map(({ words }) => html("li", {}, words)),
            ),
          ]),
    ];
  };

  const links = (named: readonly Spot[]): Child =>
    named.map((spot, i): Child => [
      i === 0 ? "" : ", ",
      html(
        "button",
        {
          type: "button",
          class: "inline",
          id: `to-${spot.place.replaceAll(".", "-")}`,
          onclick: () => goTo(spot.place),
        },
        spot.name,
      ),
    ]);

  const touch = (place: string): void => {
    touched.add(place);
    // The links stay what they are: the reader may be on the way to one of them.
    mark();
  };
  const goTo = (place: string): void => {
    // The fields may have been drawn anew since the link was.
    const control = spots.get(place)?.control;
    if (control === undefined) return;
    // What is folded away takes no focus.
    for (let fold = control.closest("details"); fold !== null; fold = fold.parentElement?.closest("details") ?? null)
      fold.open = true;
    touch(place);
    control.focus();
    control.scrollIntoView({ block: "center" });
  };

  return {
    element,
    touch,
    redraw: draw,
    show: (now) => {
      findings = now;
      draw();
    },
    showAll: () => {
      attempted = true;
      draw();
      const places = byPlace(findings.lacks, new Set(spots.keys())).keys();
      const first = [...places].map((place) => spots.get(place)).find((spot) => spot !== undefined);
      if (first !== undefined) goTo(first.place);
      else element.scrollIntoView({ block: "center" });
    },
    clear: () => {
      touched = new Set();
      attempted = false;
    },
  };
}
