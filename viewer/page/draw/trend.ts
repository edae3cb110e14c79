import { controlLimits, FEWEST_FOR_LIMITS, type ControlLimits } from "../../present/control-limits.ts";
import { fillText } from "../../present/fill.ts";
import type { Label } from "../../present/pictures/scene.ts";
import { trendScene, type TrendPoint } from "../../present/pictures/trend.ts";
import { speech } from "../language.ts";
import { words as pageWords } from "../later-words.ts";
import { html, type Child } from "./node.ts";
import { sceneNode } from "./scene.ts";

const words = pageWords.trend;
/** Narrowest and widest picture, in pixels. */
const WIDTHS = [280, 720] as const;

/** How wide pictures over time are drawn within an element. */
export const trendWidth = ({ clientWidth }: Element): number => Math.max(WIDTHS[0], Math.min(WIDTHS[1], clientWidth));

/**
 * A fold with pictures over time: what they are drawn from is read when a reader opens it.
 *
 * @param fill reads and draws into the body; if it fails, opening the fold again asks again
 */
export function trendFold(id: string, title: string, fill: (body: HTMLElement) => Promise<void>): HTMLElement {
  const body = html("div", {}, html("p", { class: "note", role: "status" }, words.reading));
  const details = html("details", { class: "trend-fold", id }, html("summary", { id: `${id}-summary` }, title), body);
  let asked = false;
  details.addEventListener("toggle", () => {
    if (!details.open || asked) return;
    asked = true;
    void fill(body).catch((error: unknown) => {
      asked = false;
      const why = error instanceof Error ? error.message : String(error);
      body.replaceChildren(html("p", { class: "note", role: "status" }, fillText(words.failed, { why })));
    });
  });
  return details;
}

/** A figure over time with its control limits, and in words whether it stays within them. */
export function trendPicture(title: Label, what: string, points: readonly TrendPoint[], width: number): Child {
  const limits = controlLimits(points.map(({ value }) => value));
  const name = fillText(words.name, { what, count: String(points.length) });
  return [
    sceneNode(trendScene({ name, title, points, limits, width }, speech.numbers)),
    html("p", { class: "note" }, limitWords(points, limits)),
  ];
}

function limitWords(points: readonly TrendPoint[], limits: ControlLimits | null): string {
  const count = String(points.length);
  if (limits === null) return fillText(words.tooFew, { fewest: String(FEWEST_FOR_LIMITS), count });
  const outside = points.filter(({ value }) => value < limits.lower || value > limits.upper).length;
  return fillText(outside === 0 ? words.allWithin : words.outside, { count, outside: String(outside) });
}
