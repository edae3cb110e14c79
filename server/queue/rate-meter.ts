/** Milliseconds over which a rate is taken. */
const WINDOW = 10_000;

/** Counts trials, and how many there were a second lately. */
export function rateMeter(now: () => number = () => performance.now()) {
  const lately: { readonly at: number; readonly trials: number }[] = [];
  let all = 0;
  const began = now();
  return {
    add(trials: number): void {
      all += trials;
      lately.push({ at: now(), trials });
    },
    read(): { readonly trials: number; readonly rate: number } {
      const at = now();
      while (lately.length > 0 && at - lately[0]!.at > WINDOW) lately.shift();
      const seconds = Math.max(1, Math.min(WINDOW, at - began) / 1000);
      return { trials: all, rate: Math.round(lately.reduce((sum, { trials }) => sum + trials, 0) / seconds) };
    },
  };
}
