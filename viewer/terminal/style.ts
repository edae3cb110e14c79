import pico from "picocolors";

/** Colour for a stream: only on a terminal, and never where NO_COLOR asks for none. */
export function stylesFor(stream: NodeJS.WriteStream): ReturnType<typeof pico.createColors> {
  const wanted = process.env["NO_COLOR"] === undefined || process.env["NO_COLOR"] === "";
  return pico.createColors(wanted && (stream.isTTY === true || (process.env["FORCE_COLOR"] ?? "") !== ""));
}

/** Columns of the terminal, or 100 where there is none or it does not say. */
export const widthOf = (stream: NodeJS.WriteStream): number =>
  stream.isTTY && stream.columns > 20 ? Math.min(stream.columns, 140) : 100;
