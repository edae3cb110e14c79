/**
 * One line that shows how far a run is, on a terminal only. Written to stderr, so that a result on stdout stays clean.
 */
export function progressLine(stream: NodeJS.WriteStream): {
  show(trials: number, limit: number, adaptive: boolean): void;
  /** How many points of a sweep are done. */
  point(done: number, of: number): void;
  clear(): void;
} {
  let last = 0;
  let shown = false;
  return {
    show(trials, limit, adaptive) {
      const now = Date.now();
      if (stream.isTTY !== true || now - last < 80) return;
      last = now;
      shown = true;
      const count = `${(trials / 1e6).toFixed(2)} million trials`;
      const part = trials / limit;
      const bar = adaptive ? "" : ` ${"█".repeat(Math.round(part * 24)).padEnd(24, "░")} ${(100 * part).toFixed(0)} %`;
      stream.write(`\r\x1b[2K${count}${bar}${adaptive ? ", until the figures settle" : ""}`);
    },
    point(done, of) {
      const now = Date.now();
      if (stream.isTTY !== true || (now - last < 80 && done < of)) return;
      last = now;
      shown = true;
      stream.write(`\r\x1b[2K${done} of ${of} points ${"█".repeat(Math.round((done / of) * 24)).padEnd(24, "░")}`);
    },
    clear() {
      if (shown) stream.write("\r\x1b[2K");
    },
  };
}
