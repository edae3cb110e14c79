import { createHash } from "node:crypto";
import { mkdtempSync, rmSync, writeFileSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { afterAll, describe, expect, test } from "vitest";
import { readingLine } from "../../../server/cli/reading-line.ts";
import { watchFile } from "../../../server/intake/watched-file.ts";
import { openTable } from "../../../server/intake/index.ts";
import { allRows } from "../../../models/index.ts";

const folder = mkdtempSync(join(tmpdir(), "trialband-watched-"));
afterAll(() => rmSync(folder, { recursive: true }));

describe("a file that is read once", () => {
  test("gives its digest and tells how far it is", async () => {
    const file = join(folder, "a.csv");
    writeFileSync(file, `time,A\n${Array.from({ length: 100_000 }, (_, i) => `${i},20.1`).join("\n")}\n`);
    const told: number[] = [];
    let size = 0;
    const watched = await watchFile(file, (name, read, all) => {
      expect(name).toBe("a.csv");
      told.push(read);
      size = all;
    });
    // Before it has been read to its end, nothing is known of it.
    expect(() => watched.trace()).toThrow(/not been read to its end/);
    expect((await allRows(openTable(watched.source))).length).toBe(100_001);
    expect(watched.trace()).toEqual({
      name: "a.csv",
      sha256: createHash("sha256")
        .update(`time,A\n${Array.from({ length: 100_000 }, (_, i) => `${i},20.1`).join("\n")}\n`)
        .digest("hex"),
    });
    expect(told.length).toBeGreaterThan(2);
    expect(told.at(-1)).toBe(size);
  });

  test('of which a published digest is known: SHA-256 of "abc" (FIPS 180-4, example of NIST)', async () => {
    const file = join(folder, "abc.txt");
    writeFileSync(file, "abc");
    const { source, trace } = await watchFile(file);
    await allRows(openTable(source));
    expect(trace().sha256).toBe("ba7816bf8f01cfea414140de5dae2223b00361a396177a9cb410ff61f20015ad");
  });

  test.each([join(folder, "none.csv"), folder])("%s is no file", async (path) => {
    await expect(watchFile(path)).rejects.toMatchObject({ code: "no-such-file" });
  });
});

describe("the line that tells how far", () => {
  const stream = (isTTY: boolean): { written: string[]; stream: NodeJS.WriteStream } => {
    const written: string[] = [];
    return { written, stream: { isTTY, write: (text: string) => written.push(text) } as unknown as NodeJS.WriteStream };
  };

  test("is shown of long files on a terminal, and taken away", () => {
    const { written, stream: terminal } = stream(true);
    const line = readingLine(terminal);
    line.onRead("log.csv", 45_200_000, 200_000_000);
    line.clear();
    expect(written).toEqual(["\r\x1b[2Kreading log.csv: 45.2 of 200.0 MB", "\r\x1b[2K"]);
  });

  test.each([
    ["short files", true, 1_000_000],
    ["pipes", false, 200_000_000],
  ])("is not shown of %s", (_, isTTY, size) => {
    const { written, stream: other } = stream(isTTY);
    const line = readingLine(other);
    line.onRead("log.csv", 500_000, size);
    line.clear();
    expect(written).toEqual([]);
  });
});
