/**
 * The pieces of a message, its places filled: `filled("{a} of {b}", { a, b })` gives a, " of " and b.
 *
 * @throws {Error} a place that nothing is given for: a fault in a message file
 */
export const filled = <T>(message: string, parts: Readonly<Record<string, T>>): (string | T)[] =>
  message
    .split(/(\{\w+\})/)
    .filter((piece) => piece !== "")
    .map((piece) => {
      const name = /^\{(\w+)\}$/.exec(piece)?.[1];
      if (name === undefined) return piece;
      if (!Object.hasOwn(parts, name))
        throw new Error(`nothing is given for {${name}} in the message ${JSON.stringify(message)}`);
      return parts[name]!;
    });

/** A message with its places filled, as plain text. @throws {Error} as `filled` */
export const fillText = (message: string, parts: Readonly<Record<string, string>>): string =>
  filled(message, parts).join("");
