import { spawn } from "node:child_process";
import { mkdtempSync, rmSync, writeFileSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { zipSync, strToU8 } from "fflate";
import type { Part } from "./part.ts";

declare const CAMPAIGN_ROOT: string;

/** A file, and the command that reads it. */
export interface HostileFile {
  readonly name: string;
  readonly content: string | Uint8Array;
  readonly command: string;
}

/** Memory of a command that reads a hostile file, in MB, and seconds until it must have ended. */
const MOST_MEMORY = 700;
const MOST_SECONDS = 60;

const HEADINGS = "quantity,estimate,unit,standard uncertainty,distribution";
const workbook = (files: Readonly<Record<string, string | Uint8Array>>): Uint8Array =>
  zipSync(
    Object.fromEntries(
      Object.entries(files).map(([path, content]) => [path, typeof content === "string" ? strToU8(content) : content]),
    ),
  );
const sheet = (cells: string): string =>
  `<worksheet xmlns="http://schemas.openxmlformats.org/spreadsheetml/2006/main"><sheetData>${cells}</sheetData></worksheet>`;

/**
 * Files made to cost time or memory out of proportion, or to be taken for something else. Each grows with `size`, about a
 * megabyte for 10.
 */
export function filesOfSize(size: number): HostileFile[] {
  const many = size * 2000;
  const nested = (open: string, close: string): string => open.repeat(many) + close.repeat(many);
  const files: HostileFile[] = [
    { name: "open-quote.csv", content: `${HEADINGS}\n"${"a\n".repeat(many * 10)}`, command: "budget" },
    { name: "open-quotes.csv", content: `${HEADINGS}\n${'a,"\n'.repeat(many * 5)}`, command: "budget" },
    { name: "one-row.csv", content: `${HEADINGS}\n${"a,".repeat(many * 10)}`, command: "budget" },
    {
      name: "many-rows.csv",
      content: `${HEADINGS}\n${Array.from({ length: many }, (_, i) => `t${i},1,K,0.1,normal`).join("\n")}\n`,
      command: "budget",
    },
    {
      name: "same-rows.csv",
      content: `${HEADINGS}\n${"t,1,K,0.1,normal\n".repeat(many)}`,
      command: "budget",
    },
    { name: "wrong-rows.csv", content: `${HEADINGS}\n${"t,x,K,y,z\n".repeat(many)}`, command: "budget" },
    { name: "zeros.csv", content: new Uint8Array(many * 20), command: "budget" },
    {
      name: "far-cell.xlsx",
      content: workbook({ "xl/worksheets/sheet1.xml": sheet('<row r="1048576"><c r="XFD1048576"><v>1</v></c></row>') }),
      command: "budget",
    },
    {
      name: "far-row.xlsx",
      content: workbook({ "xl/worksheets/sheet1.xml": sheet('<row r="1048576"><c r="A1048576"><v>1</v></c></row>') }),
      command: "budget",
    },
    {
      name: "bomb.xlsx",
      content: workbook({ "xl/worksheets/sheet1.xml": new Uint8Array(size * 30_000_000) }),
      command: "budget",
    },
    { name: "cut.xlsx", content: workbook({ "xl/worksheets/sheet1.xml": sheet("") }).slice(0, -30), command: "budget" },
    { name: "deep.json", content: nested("[", "]"), command: "run" },
    {
      name: "deep-study.json",
      content: `{"title":"t","model":"additive","inputs":{"a":${nested('{"a":', "}").replace("}", "1}")}}`,
      command: "run",
    },
    {
      name: "many-inputs.json",
      content: JSON.stringify({
        title: "t",
        model: "additive",
        parameters: { coefficients: Object.fromEntries(Array.from({ length: many }, (_, i) => [`x${i}`, 1])) },
        inputs: Object.fromEntries(
          Array.from({ length: many }, (_, i) => [
            `x${i}`,
            { distribution: "normal", estimate: 0, standardUncertainty: 1 },
          ]),
        ),
      }),
      command: "run",
    },
    ...["constructor", "__proto__", "toString"].map((format) => ({
      name: `${format}.json`,
      content: JSON.stringify({ format }),
      command: "verify",
    })),
    {
      name: "deep-record.json",
      content: `{"format":"trialband-record/2","study":${nested("[", "]")}}`,
      command: "verify",
    },
    { name: "latin.json", content: Uint8Array.from([0x7b, 0x22, 0xb0, 0x22, 0x3a, 0x31, 0x7d]), command: "verify" },
    {
      name: "entities.xml",
      content: `<!DOCTYPE a [<!ENTITY a "aaaaaaaaaa">${Array.from({ length: 20 }, (_, i) => `<!ENTITY b${i} "${`&${i === 0 ? "a" : `b${i - 1}`};`.repeat(10)}">`).join("")}]><a>&b19;</a>`,
      command: "certificate",
    },
    { name: "deep.xml", content: nested("<a>", "</a>"), command: "certificate" },
    { name: "open.xml", content: "<a>".repeat(many), command: "certificate" },
    { name: "comment.xml", content: `<a><!--${"-".repeat(many * 10)}`, command: "certificate" },
  ];
  return files;
}

/** How a command ended. */
export interface Ended {
  readonly code: number | null;
  readonly seconds: number;
  readonly stderr: string;
}

/** Runs a command on a file within bounds of memory and time; beyond the time it is ended, with code `null`. */
export function runBounded(root: string, args: readonly string[]): Promise<Ended> {
  const began = performance.now();
  return new Promise((resolve) => {
    const child = spawn(process.execPath, [`--max-old-space-size=${MOST_MEMORY}`, join(root, "bin.mjs"), ...args], {
      stdio: ["ignore", "ignore", "pipe"],
    });
    let stderr = "";
    child.stderr.on("data", (data: Buffer) => void (stderr = (stderr + data.toString()).slice(-2000)));
    const ending = setTimeout(() => child.kill("SIGKILL"), MOST_SECONDS * 1000);
    child.on("close", (code) => {
      clearTimeout(ending);
      resolve({ code, seconds: (performance.now() - began) / 1000, stderr });
    });
  });
}

/** Files that are to be refused with words and exit code 2, quickly and in little memory. */
export const hostileFiles: Part = {
  option: "hostile",
  help: "read files made to cost time or memory, about N tenths of a megabyte each",
  usual: 10,
  async run(size, tell) {
    const folder = mkdtempSync(join(tmpdir(), "trialband-hostile-"));
    const failures: string[] = [];
    const files = filesOfSize(size);
    let longest = 0;
    try {
      for (const { name, content, command } of files) {
        tell(name);
        const path = join(folder, name);
        writeFileSync(path, content);
        const { code, seconds, stderr } = await runBounded(CAMPAIGN_ROOT, [command, path]);
        longest = Math.max(longest, seconds);
        // A refused record is an outcome of its own: 1.
        const refused = code === 2 || (command === "verify" && code === 1);
        if (!refused)
          failures.push(
            `${command} ${name}: exit code ${code} after ${seconds.toFixed(1)} s: ${stderr.trim().slice(-300)}`,
          );
      }
    } finally {
      rmSync(folder, { recursive: true });
    }
    return { counts: { files: files.length, "seconds for the slowest": Math.round(longest) }, failures };
  },
};
