import type { Confirmation, Plan } from "../../../models/index.ts";
import { fillText } from "../fill.ts";
import { overUnit } from "../numbers.ts";
import type { Speech } from "../statement.ts";
import { mostGaining } from "../most-gaining.ts";
import { labelOf } from "./label.ts";
import { linesScene, type DrawnLine } from "./lines.ts";
import type { Label, Scene } from "./scene.ts";

interface Size {
  readonly width: number;
  readonly height: number;
}
const U = { symbol: "U" };

/** What the steps cost against the largest uncertainty that they leave. */
export function frontierScene(plan: Plan, size: Size, { messages, numbers }: Speech): Scene {
  const words = messages.planning;
  const { frontier, target, costUnit, measurandUnit } = plan;
  /** In the measurand's unit where the target is one number, else percent of the target. */
  const scale = target ?? 100;
  const costs = frontier.map(({ cost }) => cost);
  const [first, last] = [Math.min(...costs), Math.max(...costs)];
  // A combination counts until the next one: a staircase.
  const stairs = frontier.flatMap(({ cost, worst }, i): (readonly [number, number])[] => [
    [cost, worst * scale],
    ...(i + 1 < frontier.length ? [[frontier[i + 1]!.cost, worst * scale] as const] : []),
  ]);
  return linesScene(
    {
      name: words.pictureFrontier,
      titles: [
        costUnit === null ? words.countAxis : fillText(words.costAxis, { unit: overUnit("", costUnit) }),
        target === null
          ? labelOf(words.shareAxis, { U })
          : labelOf(words.worstAxis, { U, unit: overUnit("", measurandUnit) }),
      ],
      lines: [
        {
          label: null,
          points: [
            [first, scale],
            [last === first ? first + 1 : last, scale],
          ],
          look: "limit",
          marked: false,
        },
        { label: null, points: stairs, look: "linear-line", marked: false },
        {
          label: null,
          points: frontier.map(({ cost, worst }) => [cost, worst * scale] as const),
          look: "trials-line",
          marked: true,
          apart: true,
        },
      ],
      ...size,
      from: 0,
    },
    numbers,
  );
}

/** The range as one line a part, so that two baths that meet are not joined. */
const byPart = <T extends { readonly part: string | null }>(points: readonly T[]): readonly (readonly T[])[] =>
  [...new Set(points.map(({ part }) => part))].map((part) => points.filter((point) => point.part === part));

/** Present, proposal, run and target over the range. */
export function planRangeScene(
  plan: Plan,
  confirmation: Confirmation | null,
  size: Size,
  { messages, numbers }: Speech,
): Scene {
  const left: Label = [U, overUnit("", plan.measurandUnit)];
  const marks = (points: DrawnLine["points"]): DrawnLine => ({
    label: null,
    points,
    look: "trials-line",
    marked: true,
    apart: true,
  });
  return linesScene(
    {
      name: fillText(messages.planning.pictureRange, { quantity: plan.quantity }),
      titles: [overUnit(plan.quantity, plan.unit), left],
      lines: [
        ...byPart(plan.points).flatMap((points): DrawnLine[] => [
          { label: null, points: points.map(({ at, target }) => [at, target] as const), look: "limit", marked: false },
          {
            label: null,
            points: points.map(({ at, proposed }) => [at, proposed.claimed] as const),
            look: "linear-line",
            marked: false,
          },
        ]),
        marks(plan.points.map(({ at, now }) => [at, now.claimed] as const)),
        ...(confirmation === null ? [] : [marks(confirmation.points.map(({ at, claimed }) => [at, claimed] as const))]),
      ],
      ...size,
      from: 0,
    },
    numbers,
  );
}

/** What halving each of the inputs that gain most would gain, over the range. */
export const halvingsScene = (plan: Plan, size: Size, { messages, numbers }: Speech): Scene =>
  linesScene(
    {
      name: fillText(messages.planning.pictureHalvings, { quantity: plan.quantity }),
      titles: [overUnit(plan.quantity, plan.unit), labelOf(messages.planning.gainAxis, { U })],
      lines: mostGaining(plan).flatMap((input) =>
        byPart(plan.points).map((points, i, parts): DrawnLine => ({
          label: i === parts.length - 1 ? [{ symbol: plan.inputs[input]!.symbol }] : null,
          points: points.map(({ at, halvings }) => [
            at,
            100 * (halvings.find((one) => one.input === input)?.gain ?? 0),
          ]),
          look: "trials-line",
          marked: false,
        })),
      ),
      ...size,
      from: 0,
    },
    numbers,
  );
