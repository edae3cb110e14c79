/**
 * The name among those known that a mistyped one most likely means, or `null`. Distance by insertion, deletion, exchange and
 * swap of neighbours (Damerau), case aside; at most a third of the name may differ.
 */
export function closestName(typed: string, known: readonly string[]): string | null {
  let best: string | null = null;
  let least = Infinity;
  for (const name of known) {
    const distance = distanceBetween(typed.toLowerCase(), name.toLowerCase());
    if (distance < least) [best, least] = [name, distance];
  }
  return least <= Math.max(1, Math.floor(typed.length / 3)) ? best : null;
}

function distanceBetween(a: string, b: string): number {
  let before: number[] = [];
  let last = Array.from({ length: b.length + 1 }, (_, j) => j);
  for (let i = 1; i <= a.length; i++) {
    const row = [i];
    for (let j = 1; j <= b.length; j++) {
      const exchanged = last[j - 1]! + (a[i - 1] === b[j - 1] ? 0 : 1);
      let cost = Math.min(last[j]! + 1, row[j - 1]! + 1, exchanged);
      if (i > 1 && j > 1 && a[i - 1] === b[j - 2] && a[i - 2] === b[j - 1]) cost = Math.min(cost, before[j - 2]! + 1);
      row.push(cost);
    }
    before = last;
    last = row;
  }
  return last[b.length]!;
}
