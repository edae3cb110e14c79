/**
 * A message with its places filled, as plain text: `fillText("{a} of {b}", { a: "1", b: "2" })`.
 *
 * @throws {Error} a place that nothing is given for: a fault in a message file
 */
export const fillText = (message: string, parts: Readonly<Record<string, string>>): string =>
  message.replace(/\{(\w+)\}/g, (_, name: string) => {
    if (!Object.hasOwn(parts, name))
      throw new Error(`nothing is given for {${name}} in the message ${JSON.stringify(message)}`);
    return parts[name]!;
  });
