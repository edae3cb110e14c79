import type { OnRead } from "../intake/watched-file.ts";

/** Files up to this size, in bytes, are read too fast for a line to help. */
const SMALL = 5_000_000;

/** One line that shows how far a long file has been read, on a terminal only. Written to stderr. */
export function readingLine(stream: NodeJS.WriteStream): { readonly onRead: OnRead; clear(): void } {
  let last = 0;
  let shown = false;
  const megabytes = (bytes: number): string => (bytes / 1e6).toFixed(1);
  return {
    onRead(name, read, size) {
      const now = Date.now();
      if (stream.isTTY !== true || size < SMALL || now - last < 80) return;
      last = now;
      shown = true;
      stream.write(`\r\x1b[2Kreading ${name}: ${megabytes(read)} of ${megabytes(size)} MB`);
    },
    clear() {
      if (shown) stream.write("\r\x1b[2K");
      shown = false;
    },
  };
}
