import { standingOf } from "../../present/verdict.ts";
import type { RunHead } from "../../api/runs.ts";
import { html } from "../draw/node.ts";
import { verdictMark } from "../draw/swatch.ts";
import { outcome } from "../library/listing.ts";

/** How a run ended or stands, with the sign of its verdict. */
export function runMark(run: RunHead): HTMLElement {
  const { verdict, state } = run;
  if (verdict === null || state !== "finished") return html("span", { class: "note" }, outcome(run));
  const standing = standingOf(verdict);
  return html(
    "span",
    { class: "verdict-small", "data-standing": standing },
    verdictMark(standing),
    html("span", {}, outcome(run)),
  );
}
