// The command as a person meets it; what it finds is in selfcheck.test.ts, and a whole run in command.long.test.ts.
import { describe, expect, test } from "vitest";
import { trialband } from "../cli/trialband.ts";

describe("selfcheck", () => {
  test.each<[string, string[], number, RegExp]>([
    ["a report of another kind", ["--out", "report.pdf"], 2, /ends in \.html or \.json/],
    ["no workers", ["--workers", "0"], 2, /whole number from 1 to 64/],
    ["an empty seed", ["--seed", ""], 2, /1 to 100 characters/],
    ["an argument too many", ["quick"], 2, /too many arguments/],
  ])("%s is refused", async (_, args, code, message) => {
    const { status, stderr } = await trialband("selfcheck", ...args);
    expect(stderr).toMatch(message);
    expect(status).toBe(code);
  });

  test("its help tells what it does and its exit codes", async () => {
    expect((await trialband("selfcheck", "--help")).stdout).toMatch(
      /--quick[^]*--out <file>[^]*--json[^]*Exit codes: 0 every line passed/,
    );
  });
});
