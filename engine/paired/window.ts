/**
 * A window about one endpoint. A trial counts below the endpoint with the part of the window that lies above it: 1 below
 * the window, 0 above it, falling linearly between. All that counts then lies near the endpoint, yet no single trial decides.
 */
export const partBelow = (value: number, centre: number, halfWidth: number): number => {
  const part = (centre + halfWidth - value) / (2 * halfWidth);
  return part >= 1 ? 1 : part > 0 ? part : 0;
};

/** Σ of the parts of sorted values. */
export function sumBelow(sorted: Float64Array, centre: number, halfWidth: number): number {
  let sum = 0;
  for (let i = 0; i < sorted.length && sorted[i]! < centre + halfWidth; i++)
    sum += partBelow(sorted[i]!, centre, halfWidth);
  return sum;
}

/** Steps of a bisection that leave nothing of an interval but the last bits of its ends. */
const HALVINGS = 60;

/** The centre between `low` and `high` at which a sum that rises with it reaches `target`. */
export function centreFor(sumAt: (centre: number) => number, target: number, low: number, high: number): number {
  let [from, to] = [low, high];
  for (let i = 0; i < HALVINGS; i++) {
    const middle = from / 2 + to / 2;
    if (middle <= from || middle >= to) break;
    if (sumAt(middle) < target) from = middle;
    else to = middle;
  }
  return from / 2 + to / 2;
}
