import { expect, test } from "vitest";
import { age } from "../../../../viewer/page/drafts/list.ts";

const NOW = new Date("2026-11-29T12:00:00Z").getTime();

test.each([
  ["2026-11-29T11:59:30Z", "just now"],
  ["2026-11-29T11:59:00Z", "1 minute ago"],
  ["2026-11-29T11:01:00Z", "59 minutes ago"],
  ["2026-11-29T11:00:00Z", "1 hour ago"],
  ["2026-11-28T12:00:01Z", "23 hours ago"],
  ["2026-11-28T12:00:00Z", "1 day ago"],
  ["2026-09-01T12:00:00Z", "89 days ago"],
  // Another machine's clock may be ahead.
  ["2026-11-29T12:05:00Z", "just now"],
])("%s was %s", (moment, words) => {
  expect(age(moment, NOW)).toBe(words);
});
