// Each topic of sentences has a test of its name, which holds every message of it.
import { existsSync } from "node:fs";
import { expect, test } from "vitest";
import { en } from "../../../engine/sentences/en/index.ts";

test.each(Object.keys(en))("%s", (topic) => {
  expect(existsSync(new URL(`${topic}.test.ts`, import.meta.url))).toBe(true);
});
