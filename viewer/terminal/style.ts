import pico from "picocolors";

/** Colour for a stream: only on a terminal, and never if NO_COLOR is set. */
export function stylesFor(stream: NodeJS.WriteStream): ReturnType<typeof pico.createColors> {
  const wanted = process.env["NO_COLOR"] === undefined || process.env["NO_COLOR"] === "";
  return pico.createColors(wanted && (stream.isTTY === true || (process.env["FORCE_COLOR"] ?? "") !== ""));
}

/** Columns of the terminal, or 100 without a terminal or if its width is unknown. */
export const widthOf = (stream: NodeJS.WriteStream): number =>
  stream.isTTY && stream.columns > 20 ? Math.min(stream.columns, 140) : 100;
