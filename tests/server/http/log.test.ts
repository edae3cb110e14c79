import { describe, expect, test } from "vitest";
import { openLog } from "../../../server/http/log.ts";

/** What a log writes of what is done with it. */
function written(
  level: "silent" | "error" | "warn" | "info",
  plain: boolean,
  use: (log: ReturnType<typeof openLog>) => void,
) {
  const lines: string[] = [];
  use(openLog(level, { write: (line) => void lines.push(line) }, plain));
  return lines;
}

describe("a log", () => {
  test.each([
    ["silent", []],
    ["error", ["e"]],
    ["warn", ["w", "e"]],
    ["info", ["i", "w", "e"]],
  ] as const)("at the level %s has %j", (level, expected) => {
    const lines = written(level, false, (log) => {
      log.info("i");
      log.warn("w");
      log.error("e");
    });
    expect(lines.map((line) => (JSON.parse(line) as { msg: string }).msg)).toEqual(expected);
  });

  test.each([true, false])("carries no secret (for a person: %s)", (plain) => {
    const secret = { authorization: "hush", cookie: "hush", password: "hush", token: "hush" };
    const lines = written("info", plain, (log) => log.info({ ...secret, headers: secret, kept: "seen" }, "m"));
    expect(lines.join("")).toContain("seen");
    expect(lines.join("")).not.toContain("hush");
  });

  test("for a person: time, level, words and what is known, then the trace; nothing that a terminal carries out", () => {
    const [line] = written("warn", true, (log) =>
      log.error({ path: "/a\u001b[2J", err: new Error("deep\u0007") }, "it broke"),
    );
    expect(line).toMatch(/^\d{4}-\d\d-\d\dT[\d:.]+Z error: it broke path=\/a\uFFFD\[2J\nError: deep\uFFFD\n +at /);
  });
});
