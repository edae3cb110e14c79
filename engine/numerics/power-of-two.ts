/** The least power of two above x, or the greatest there is; 0 for 0. */
export function powerOfTwoAbove(x: number): number {
  if (x === 0) return 0;
  let power = 1;
  while (power <= x && power < 2 ** 1023) power *= 2;
  while (power / 2 > x) power /= 2;
  return power;
}
