import type { MeasurandRecord, RunRecord } from "../../../engine/index.ts";
import type { RunHead } from "../../api/runs.ts";
import { fillText } from "../../present/fill.ts";
import { overUnit } from "../../present/numbers.ts";
import { labelOf } from "../../present/pictures/label.ts";
import type { Label } from "../../present/pictures/scene.ts";
import type { TrendPoint } from "../../present/pictures/trend.ts";
import { symbolText } from "../../present/symbol.ts";
import { readRun } from "../api.ts";
import { html, type Child } from "../draw/node.ts";
import { symbolNode } from "../draw/symbol.ts";
import { trendFold, trendPicture, trendWidth } from "../draw/trend.ts";
import { words as pageWords } from "../later-words.ts";

const words = pageWords.trend;
/** Most versions that are drawn, the newest ones: each record is read for it. */
const MOST = 40;

/** A record of a version, and when it was made. */
interface Made {
  readonly at: number;
  readonly record: RunRecord;
}

/**
 * Error, u and k of a study's versions over time, folded away: the records are read when a reader opens it.
 *
 * @param versions the finished run of each version that stands for it, the newest version first
 */
export function trendPart(versions: readonly RunHead[]): HTMLElement | null {
  if (versions.length < 2) return null;
  return trendFold("own-trend", words.open, (body) => fill(body, versions.slice(0, MOST)));
}

async function fill(body: HTMLElement, versions: readonly RunHead[]): Promise<void> {
  const runs = await Promise.all(versions.map(({ id }) => readRun(id)));
  const made = runs
    .flatMap(({ startedAt, record }): Made[] => (record === null ? [] : [{ at: Date.parse(startedAt), record }]))
    .toSorted((a, b) => a.at - b.at);
  const newest = made.at(-1);
  if (newest === undefined) {
    body.replaceChildren(html("p", { class: "note" }, words.none));
    return;
  }
  const width = trendWidth(body);
  body.replaceChildren(
    html("p", { class: "note" }, `${words.source} ${words.lines}`),
    ...Object.entries(newest.record.measurands).flatMap(([name, measurand]) =>
      partsOf(name, measurand, made, width, Object.keys(newest.record.measurands).length > 1),
    ),
  );
}

function partsOf(name: string, shown: MeasurandRecord, made: readonly Made[], width: number, several: boolean): Node[] {
  // Another unit or a measurand of another version would be another figure.
  const alike = made.flatMap(({ at, record }) => {
    const found = Object.hasOwn(record.measurands, name) ? record.measurands[name]! : null;
    return found === null || found.unit !== shown.unit ? [] : [{ at, linear: found.linear }];
  });
  const y = symbolText(shown.symbol);
  const picture = (title: Label, what: string, points: readonly TrendPoint[]): Child =>
    trendPicture(title, what, points, width);
  const figure = (value: (linear: MeasurandRecord["linear"]) => number, half = false): TrendPoint[] =>
    alike.map(({ at, linear }) => ({ at, value: value(linear), half: half ? linear.expandedUncertainty : null }));
  const u = { symbol: "u" };
  return [
    several ? html("h3", {}, symbolNode(shown.symbol), `, ${shown.meaning}`) : null,
    alike.length === made.length
      ? null
      : html("p", { class: "note" }, fillText(words.leftOut, { count: String(made.length - alike.length) })),
    html(
      "div",
      { class: "trend-pictures" },
      picture(
        labelOf(words.estimate, { y: { symbol: shown.symbol }, unit: overUnit("", shown.unit) }),
        y,
        figure(({ estimate }) => estimate, true),
      ),
      picture(
        labelOf(words.uncertainty, { u, y: { symbol: shown.symbol }, unit: overUnit("", shown.unit) }),
        `u(${y})`,
        figure(({ standardUncertainty }) => standardUncertainty),
      ),
      picture(
        labelOf(words.factor, { k: { symbol: "k" } }),
        "k",
        figure(({ coverageFactor }) => coverageFactor),
      ),
    ),
  ].filter((node) => node !== null);
}
