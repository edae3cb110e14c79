import type { OpenedOutlook, PlanConfirmation } from "../../api/outlooks.ts";
import { fillText } from "../../present/fill.ts";
import { frontierScene, halvingsScene, planRangeScene } from "../../present/pictures/planning.ts";
import {
  aloneTable,
  frontierTable,
  gainingInputsTable,
  halvingsTable,
  planPointsTable,
  planRemarks,
  planSentences,
} from "../../present/tables/planning.ts";
import { writeAddress } from "../address.ts";
import { confirmPlan, startRun } from "../api.ts";
import { endOf } from "../calibration/followed-run.ts";
import { html, type Child } from "../draw/node.ts";
import type { Follow } from "../files-room.ts";
import { messages, speech } from "../language.ts";
import { words as pageWords } from "../later-words.ts";
import { paragraphs, pictured, tablesOf } from "./parts.ts";

const words = pageWords.outlook;
type Opened = Extract<OpenedOutlook, { readonly kind: "plan" }>;
type Plan = Parameters<typeof frontierScene>[0];

/** A plan: its proposal, which a reader has run and confirmed here, the frontier, and what gains most. */
export function planPart(opened: Opened, width: number, { say, fail }: Follow): HTMLElement {
  const plan = opened.plan as unknown as Plan;
  const size = { width, height: 220 };
  const captions = messages.planning;
  const range = html("div", { id: "plan-range" });
  const confirm = html(
    "button",
    { type: "button", class: "primary", id: "confirm-plan", onclick: () => void carryOut() },
    words.confirm,
  );

  const drawRange = (confirmation: PlanConfirmation | null, run: string | null): void => {
    const table = tablesOf("plan-range", opened.title);
    range.replaceChildren(
      ...[
        paragraphs(planSentences(plan, confirmation, speech)),
        run === null
          ? html("p", {}, confirm)
          : html("p", {}, html("a", { href: writeAddress({ kind: "run", id: run, measurand: null }) }, words.run)),
        pictured(
          planRangeScene(plan, confirmation, size, speech),
          confirmation === null ? captions.captionPredicted : captions.captionRange,
        ),
        table(planPointsTable(plan, confirmation, speech)),
      ]
        .flat()
        .filter((child): child is HTMLElement => child instanceof HTMLElement),
    );
  };

  const carryOut = async (): Promise<void> => {
    confirm.disabled = true;
    say(words.waiting);
    try {
      const { id } = await startRun(opened.study);
      const ended = await endOf(id, (share) =>
        say(fillText(words.running, { percent: speech.numbers.percent(share, 0) })),
      );
      if (ended.state !== "finished")
        throw new Error(fillText(words.failed, { reason: ended.error?.message ?? ended.state }));
      drawRange(await confirmPlan({ plan: opened.plan as never, run: id }), id);
      say(words.confirmed);
    } catch (error) {
      confirm.disabled = false;
      fail(words.notRun, error);
    }
  };

  drawRange(null, null);
  const table = tablesOf("plan", opened.title);
  const { warnings, cautions } = opened.safety;
  const list = (items: readonly string[]): Child =>
    html(
      "ul",
      { class: "cautions" },
      items.map((item) => html("li", {}, speech.translate(item))),
    );
  return html(
    "div",
    {},
    range,
    paragraphs(planRemarks(plan, speech)),
    pictured(frontierScene(plan, size, speech), captions.captionFrontier),
    table(frontierTable(plan, speech)),
    table(aloneTable(plan, speech)),
    pictured(halvingsScene(plan, size, speech), captions.captionHalvings),
    table(halvingsTable(plan, speech)),
    table(gainingInputsTable(plan, speech)),
    warnings.length === 0 ? null : [html("h3", {}, messages.capability.warnings), list(warnings)],
    html("section", { class: "safety" }, html("h3", {}, messages.sections.cautions), list(cautions)),
  );
}
