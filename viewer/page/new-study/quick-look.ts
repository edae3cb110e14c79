import { words } from "../later-words.ts";
import { fillText } from "../../present/fill.ts";
import { counted } from "../counted.ts";
import type { ExplorationAnswer } from "../../api/explorations.ts";
import { exploreStudy, RequestError } from "../api.ts";
import { html, type Child } from "../draw/node.ts";
import { symbolNode } from "../draw/symbol.ts";
import { decimalsFor } from "../../present/numbers.ts";
import { fixed, plain, probabilityText, whole } from "../numbers.ts";
import { choice } from "./controls.ts";
import { fold, type Fold } from "./fold.ts";
import type { StudyDocument } from "./draft.ts";

type Explored = NonNullable<ExplorationAnswer["explored"]>;
type Figure = Explored["measurands"][string]["low"];

/** A look at the figures before a run: few evaluations, nothing kept, and no verdict. */
export interface QuickLook {
  readonly element: HTMLElement;
  /** The study is another now: what was seen no longer belongs to it. */
  readonly forget: () => void;
}

/**
 * @param study as it is written at the time of asking
 * @param wanting shows what is still missing; whether there is anything
 */
export function createQuickLook(study: () => StudyDocument, wanting: () => Promise<boolean>): QuickLook {
  const seen = html("div", { role: "status" });
  let points: "256" | "1024" | "4096" = "1024";
  let asked = 0;
  const look = html(
    "button",
    { type: "button", class: "quiet", id: "look", onclick: () => void ask() },
    words.studyForm.look.take,
  );
  const ask = async (): Promise<void> => {
    const mine = ++asked;
    if (await wanting()) return;
    seen.replaceChildren(html("p", { class: "note" }, words.studyForm.look.evaluating));
    try {
      const { problems, explored } = await exploreStudy(study(), Number(points) as 256 | 1024 | 4096);
      if (mine !== asked) return;
      seen.replaceChildren(
        explored === null ? html("p", {}, counted(words.studyForm.look.notYet, problems.length)) : table(explored),
      );
    } catch (error) {
      if (!(error instanceof RequestError)) throw error;
      if (mine === asked)
        seen.replaceChildren(
          html("p", { class: "cut" }, fillText(words.studyForm.look.failed, { why: error.fault.message })),
        );
    }
  };
  const chooser = choice(
    points,
    [
      ["256", words.studyForm.look.few],
      ["1024", words.studyForm.look.usual],
      ["4096", words.studyForm.look.many],
    ],
    (chosen) => {
      points = chosen;
    },
  );
  chooser.id = "look-points";
  const made: Fold = fold(
    "quick-look",
    words.studyForm.look.title,
    false,
    html("p", { class: "note" }, words.studyForm.look.about),
    html("p", { class: "buttons" }, look, html("label", { for: "look-points" }, words.studyForm.look.with), chooser),
    seen,
  );
  return {
    element: made.element,
    forget: () => {
      if (seen.childElementCount === 0) return;
      asked += 1;
      seen.replaceChildren(html("p", { class: "note" }, words.studyForm.look.changed));
    },
  };
}

const table = ({ points, scramblings, probability, measurands }: Explored): HTMLElement =>
  html(
    "div",
    { class: "scroll" },
    html(
      "table",
      { class: "plain" },
      html(
        "caption",
        {},
        fillText(words.studyForm.look.points, { scramblings: String(scramblings), points: whole(points) }),
      ),
      html(
        "thead",
        {},
        html(
          "tr",
          {},
          [
            words.studyTable.result,
            words.studyForm.look.estimate,
            words.studyForm.look.u,
            fillText(words.studyForm.look.lower, { p: probabilityText(probability) }),
            words.studyForm.look.upper,
            words.studyTable.columns.unit,
          ].map((head) => html("th", { scope: "col" }, head)),
        ),
      ),
      html(
        "tbody",
        {},
        Object.values(measurands).map(({ symbol, estimate, standardUncertainty, low, high, unit }) =>
          html(
            "tr",
            {},
            html("th", { scope: "row" }, symbolNode(symbol)),
            [estimate, standardUncertainty, low, high].map((figure): Child => html("td", {}, figureText(figure))),
            html("td", { class: "words" }, unit),
          ),
        ),
      ),
    ),
  );

/** A figure to the digits that its standard error leaves, with that error. */
function figureText(figure: Figure | null): string {
  if (figure === null) return "none";
  const { value, standardError } = figure;
  if (!(standardError > 0)) return plain(value);
  const places = Math.max(0, decimalsFor(standardError, 2));
  return `${fixed(value, places)} ± ${fixed(standardError, places)}`;
}
