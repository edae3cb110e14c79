import { gaussLegendre } from "./gauss-legendre.ts";

const DEEPEST = 50;

/**
 * ∫ f over consecutive panels. Each is halved until the 20-point Gauss–Legendre rule over it and over its halves agree,
 * so that a kink between given points costs bisections, not accuracy. Arithmetic in a fixed order, hence identical bits.
 *
 * @param points ends of the panels in rising order; include every place where f changes abruptly
 * @param tolerance absolute error allowed per panel
 */
export function adaptiveIntegral(f: (x: number) => number, points: readonly number[], tolerance: number): number {
  let sum = 0;
  for (let i = 1; i < points.length; i++) {
    const [from, to] = [points[i - 1]!, points[i]!];
    if (to > from) sum += panel(f, from, to, gaussLegendre(f, from, to - from), tolerance, DEEPEST);
  }
  return sum;
}

function panel(
  f: (x: number) => number,
  from: number,
  to: number,
  whole: number,
  tolerance: number,
  depth: number,
): number {
  const middle = from + (to - from) / 2;
  const left = gaussLegendre(f, from, middle - from);
  const right = gaussLegendre(f, middle, to - middle);
  if (depth === 0 || middle === from || middle === to || Math.abs(left + right - whole) <= tolerance)
    return left + right;
  return panel(f, from, middle, left, tolerance, depth - 1) + panel(f, middle, to, right, tolerance, depth - 1);
}
