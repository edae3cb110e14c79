import { describe, expect, test } from "vitest";
import type { Chance } from "../../../engine/record/chance.ts";
import { de } from "../../../engine/sentences/de/index.ts";
import { en } from "../../../engine/sentences/en/index.ts";
import { sayOne, type Facts, type MessageTable } from "../../../engine/sentences/messages.ts";
import { numbersIn } from "./numbers-in.ts";

export const kelvin = (value: number, decimals: number) => ({ value, decimals, unit: "°C" });
export const chance = (value: number): Chance => ({ value, rest: 1 - value });

type Row<F> = readonly [fact: F, english: string, german: string];

/** Every fact of a topic in every language: the sentence it makes, with the same figures and symbols in each. */
export function everyMessage<T extends keyof Facts>(topic: T, table: readonly Row<Facts[T]>[]): void {
  const name: keyof Facts = topic;
  const rows = table as unknown as readonly Row<{ readonly kind: string }>[];
  const messages = (language: typeof en) => language[name] as MessageTable<{ readonly kind: string }>;

  describe(topic, () => {
    test("every message is in the table of this test", () => {
      expect(new Set(rows.map(([{ kind }]) => kind))).toEqual(new Set(Object.keys(en[name])));
      expect(Object.keys(de[name]).toSorted()).toEqual(Object.keys(en[name]).toSorted());
    });

    test.each(rows.map(([fact, english, german]) => ({ kind: fact.kind, fact, english, german })))("$kind", (row) => {
      const { fact, english, german } = row;
      expect(sayOne(messages(en), fact)).toBe(english);
      expect(sayOne(messages(de), fact)).toBe(german);
      expect(numbersIn(german)).toEqual(numbersIn(english));
    });
  });
}
