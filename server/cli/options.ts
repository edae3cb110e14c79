import { InvalidArgumentError } from "commander";

/** An option parser for whole numbers within bounds. */
export const wholeNumber =
  (least: number, most: number) =>
  (text: string): number => {
    const value = Number(text);
    if (!Number.isInteger(value) || value < least || value > most) {
      throw new InvalidArgumentError(`Expected a whole number from ${least} to ${most}.`);
    }
    return value;
  };
