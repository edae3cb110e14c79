/** A field's name in words, where no message has a better one: "maximumTrials" reads "maximum trials". */
export const fieldWords = (name: string): string =>
  name === "halfWidth"
    ? "half-width"
    : name.replace(/([a-z])([A-Z])/g, (_, before: string, after: string) => `${before} ${after.toLowerCase()}`);
