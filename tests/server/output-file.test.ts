import {
  chmodSync,
  mkdtempSync,
  readdirSync,
  readFileSync,
  rmSync,
  statSync,
  symlinkSync,
  writeFileSync,
} from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { afterEach, beforeEach, describe, expect, test } from "vitest";
import { Fault } from "../../server/errors.ts";
import { openOutput, withOutputs } from "../../server/output-file.ts";

let folder: string;
beforeEach(() => void (folder = mkdtempSync(join(tmpdir(), "trialband-output-"))));
afterEach(() => rmSync(folder, { recursive: true }));
const path = (name: string): string => join(folder, name);

describe("an output", () => {
  test("stands whole in its place once it is written, and beside it before", async () => {
    writeFileSync(path("r.json"), "before");
    chmodSync(path("r.json"), 0o640);
    const output = await openOutput(path("r.json"), "The record");
    expect(readFileSync(path("r.json"), "utf8")).toBe("before");
    await output.write("after");
    expect(readFileSync(path("r.json"), "utf8")).toBe("after");
    expect(statSync(path("r.json")).mode & 0o777).toBe(0o640);
    expect(readdirSync(folder)).toEqual(["r.json"]);
  });

  test("that is never written leaves what was there, and nothing else", async () => {
    writeFileSync(path("r.json"), "before");
    const output = await openOutput(path("r.json"), "The record");
    await expect(withOutputs([output], () => Promise.reject(new Error("the run failed")))).rejects.toThrow("failed");
    expect(readFileSync(path("r.json"), "utf8")).toBe("before");
    expect(readdirSync(folder)).toEqual(["r.json"]);
  });

  test("goes through a link to the file that it leads to", async () => {
    writeFileSync(path("real.json"), "before");
    symlinkSync(path("real.json"), path("link.json"));
    await (await openOutput(path("link.json"), "The record")).write("after");
    expect(readFileSync(path("real.json"), "utf8")).toBe("after");
    expect(readdirSync(folder).toSorted()).toEqual(["link.json", "real.json"]);
  });

  test("that must not exist is refused before the work, and is not written over after it", async () => {
    const unless = "it exists already.";
    const output = await openOutput(path("s.json"), "The study", { unless });
    writeFileSync(path("s.json"), "of another");
    await expect(output.write("ours")).rejects.toThrow(unless);
    expect(readFileSync(path("s.json"), "utf8")).toBe("of another");
    await expect(openOutput(path("s.json"), "The study", { unless })).rejects.toThrow(unless);
    expect(readdirSync(folder)).toEqual(["s.json"]);
  });

  test("to a device is written as it is", async () => {
    await (await openOutput("/dev/null", "The record")).write("nothing");
    expect(statSync("/dev/null").isFile()).toBe(false);
  });

  test.each([
    ["a folder", () => folder],
    ["in a folder that is missing", () => path("none/r.json")],
    ["below a file", () => (writeFileSync(path("f"), ""), path("f/r.json"))],
  ])("%s is refused before the work", async (_, place) => {
    const found = await openOutput(place(), "The record").catch((error: unknown) => error);
    expect(found).toBeInstanceOf(Fault);
    expect(found).toMatchObject({ code: "cannot-write", message: expect.stringContaining("The record cannot be") });
  });
});
