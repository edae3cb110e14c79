import { exp, ln } from "../elementary/index.ts";

/**
 * Tables for the standard normal ziggurat with 1024 layers of equal area. With this number, one draw in 234 falls outside
 * its layer's inner box and needs the slow path.
 *
 * Source: Marsaglia & Tsang, "The ziggurat method for generating random variables", J. Stat. Softw. 5(8), 2000; layer
 * number, sign and position come from disjoint bits, as Doornik (2005) requires.
 */
export const LAYERS = 1024;
/** Start of the tail: x such that 1024 layers of equal area cover the half density (tests/reference/ziggurat.py). */
export const TAIL = 4.038849846109504;
/** Common area of a layer under exp(−x²/2): TAIL·f(TAIL) + ∫_TAIL^∞ f. */
const AREA = 0.001226324646353088;

/** Right edge of each layer; edge[0] is that of the base layer's virtual box, edge[LAYERS] = 0. */
export const edges = new Float64Array(LAYERS + 1);
/** exp(−x²/2) at each edge. */
export const heights = new Float64Array(LAYERS + 1);

const density = (x: number): number => exp(-0.5 * x * x);

edges[0] = AREA / density(TAIL);
edges[1] = TAIL;
for (let i = 2; i < LAYERS; i++) {
  edges[i] = Math.sqrt(-2 * ln(AREA / edges[i - 1]! + density(edges[i - 1]!)));
}
edges[LAYERS] = 0;
for (let i = 0; i <= LAYERS; i++) heights[i] = density(edges[i]!);

/**
 * Finishes a draw that fell outside its layer's inner box, from the trial's own sequence.
 *
 * @param layer the layer already chosen
 * @param x the signed position already drawn in it
 * @param uniform numbers uniform on (0, 1)
 */
export function finishNormal(layer: number, x: number, uniform: () => number): number {
  for (;;) {
    if (layer === 0) {
      // Beyond TAIL: Marsaglia's exponential majorant of the normal tail.
      for (;;) {
        const a = -ln(uniform()) / TAIL;
        const b = -ln(uniform());
        if (b + b > a * a) return x < 0 ? -(TAIL + a) : TAIL + a;
      }
    }
    const y = heights[layer]! + uniform() * (heights[layer + 1]! - heights[layer]!);
    if (y < density(x)) return x;
    layer = Math.floor(uniform() * LAYERS);
    x = (2 * uniform() - 1) * edges[layer]!;
    if (Math.abs(x) < edges[layer + 1]!) return x;
  }
}

/** A complete draw from a source of uniforms, for code outside the block loop. */
export function drawNormal(uniform: () => number): number {
  const layer = Math.floor(uniform() * LAYERS);
  const x = (2 * uniform() - 1) * edges[layer]!;
  return Math.abs(x) < edges[layer + 1]! ? x : finishNormal(layer, x, uniform);
}
