// Trials in files: read by other programs, they are the trials that the record's figures come from.
import { spawnSync } from "node:child_process";
import { mkdtempSync, rmSync, writeFileSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { parquetMetadata, parquetReadObjects } from "hyparquet";
import { afterAll, beforeAll, describe, expect, test } from "vitest";
import { prepare, readStudy } from "../../../../engine/index.ts";
import { npyBytes } from "../../../../server/export/trials/npy.ts";
import { parquetBytes } from "../../../../server/export/trials/parquet.ts";
import { PART, trialTable } from "../../../../server/export/trials/trial-table.ts";
import { modelOf, readExample, runExample } from "../../../read-example.ts";
import { LONG } from "../../../setup/long.ts";

const ID = "published/impedance";
/** More than one part, and a last one that is no whole block. */
const COUNT = PART + 1234;
const document = { ...readExample(ID), trials: COUNT };
const prepared = prepare(modelOf(document), readStudy(document));
const table = (measurandsOnly = false) =>
  trialTable(prepared, { count: COUNT, facts: { title: 'It\'s a "test"\n', seed: "1" }, measurandsOnly });

async function whole(bytes: AsyncIterable<Uint8Array>): Promise<Buffer> {
  const parts: Uint8Array[] = [];
  for await (const part of bytes) parts.push(part);
  return Buffer.concat(parts);
}

let folder: string;
beforeAll(() => {
  folder = mkdtempSync(join(tmpdir(), "trialband-trials-"));
});
afterAll(() => rmSync(folder, { recursive: true }));

test("the trials are those of the run: least, greatest, endpoints by their ranks, and the model of their inputs", async () => {
  const record = runExample(ID, { trials: COUNT });
  const { columns, parts } = table();
  const values = columns.map(() => [] as number[]);
  for await (const part of parts) part.forEach((column, i) => values[i]!.push(...column));
  const inputs = Object.keys(record.inputs);
  for (const [i, { name }] of columns.entries()) {
    const measurand = record.measurands[name];
    if (measurand === undefined) continue;
    const sorted = Float64Array.from(values[i]!).sort();
    expect(sorted).toHaveLength(COUNT);
    expect([sorted[0], sorted.at(-1)]).toEqual([measurand.monteCarlo.least, measurand.monteCarlo.greatest]);
    const [low, high] = measurand.monteCarlo.intervals.symmetric;
    expect(sorted.includes(low) && sorted.includes(high)).toBe(true);
  }
  for (const t of [0, PART, COUNT - 1]) {
    const x = Object.fromEntries(inputs.map((name) => [name, values[columns.findIndex((c) => c.name === name)]![t]!]));
    const outputs = prepared.model.evaluate(x) as Readonly<Record<string, number>>;
    for (const [name, value] of Object.entries(outputs))
      expect(values[columns.findIndex((column) => column.name === name)]![t]).toBe(value);
  }
});

test("Parquet: names, units, facts, groups of rows; every value comes back", async () => {
  const file = await whole(parquetBytes(table()));
  const buffer = file.buffer.slice(file.byteOffset, file.byteOffset + file.length) as ArrayBuffer;
  const metadata = parquetMetadata(buffer);
  expect(Number(metadata.num_rows)).toBe(COUNT);
  expect(metadata.row_groups).toHaveLength(2);
  expect(metadata.schema.slice(1).map(({ name }) => name)).toEqual(table().columns.map(({ name }) => name));
  const facts = Object.fromEntries(metadata.key_value_metadata!.map(({ key, value }) => [key, value]));
  expect(facts).toMatchObject({ title: 'It\'s a "test"\n', seed: "1", "unit:resistance": "Ω" });
  const rows = await parquetReadObjects({ file: buffer });
  const { columns, parts } = table();
  let first = 0;
  for await (const part of parts) {
    for (const t of [0, 1, part[0]!.length - 1])
      columns.forEach(({ name }, i) => expect(rows[first + t]![name]).toBe(part[i]![t]));
    first += part[0]!.length;
  }
});

const python = spawnSync("python3", ["-c", "import numpy"]).status === 0;
if (!python) console.warn("skipped: python3 with NumPy is not installed, so no .npy file is read by it");

/** NumPy's own reader: NEP 1 and its later versions; names, titles, count, and the bits of some rows. */
const SCRIPT = `
import json, sys, numpy
a = numpy.load(sys.argv[1], allow_pickle=False)
b = numpy.load(sys.argv[1], mmap_mode="r")
print(json.dumps({"names": a.dtype.names, "titles": [a.dtype.fields[n][2] for n in a.dtype.names], "count": len(a),
  "rows": [[float(x).hex() for x in b[i]] for i in (0, ${PART}, ${COUNT - 1})],
  "means": [float(numpy.mean(a[n])) for n in a.dtype.names]}))
`;

describe.skipIf(!python)("NPY, read by NumPy", () => {
  test.each([false, true])("names, units and every bit (measurands only: %s)", LONG, async (measurandsOnly) => {
    const path = join(folder, `trials-${measurandsOnly}.npy`);
    writeFileSync(path, await whole(npyBytes(table(measurandsOnly))));
    const done = spawnSync("python3", ["-c", SCRIPT, path], { encoding: "utf8" });
    expect(done.stderr).toBe("");
    const found = JSON.parse(done.stdout) as {
      names: string[];
      titles: string[];
      count: number;
      rows: string[][];
      means: number[];
    };
    const { columns, parts } = table(measurandsOnly);
    expect(found.count).toBe(COUNT);
    expect(found.names).toEqual(columns.map(({ name }) => name));
    columns.forEach(({ unit, symbol }, i) => expect(found.titles[i]).toContain(`, ${symbol} / ${unit}`));
    const all = columns.map(() => [] as number[]);
    for await (const part of parts) part.forEach((column, i) => all[i]!.push(...column));
    const decode = (text: string): number => {
      const [, sign, digit, digits, power] = /^(-?)0x([01])\.([0-9a-f]+)p([+-]\d+)$/.exec(text)!;
      const value = (Number(digit) + Number.parseInt(digits!, 16) / 16 ** digits!.length) * 2 ** Number(power);
      return sign === "-" ? -value : value;
    };
    [0, PART, COUNT - 1].forEach((t, r) =>
      columns.forEach((_, i) => expect(decode(found.rows[r]![i]!)).toBe(all[i]![t])),
    );
  });
});

test("hostile words in names and units stay a header that NumPy reads", LONG, async () => {
  const { columns, ...rest } = table(true);
  const hostile = columns.map((column) => ({ ...column, meaning: `it's\\ "x"\n\u2028\ud800 δ`, unit: "'),('" }));
  const bytes = await whole(npyBytes({ ...rest, columns: hostile }));
  const length = bytes.readUInt32LE(8);
  expect((12 + length) % 64).toBe(0);
  expect(bytes.length).toBe(12 + length + 8 * columns.length * COUNT);
  if (!python) return;
  const path = join(folder, "hostile.npy");
  writeFileSync(path, bytes);
  expect(spawnSync("python3", ["-c", SCRIPT, path], { encoding: "utf8" }).stderr).toBe("");
});

test("a cancel ends the parts", async () => {
  const abort = new AbortController();
  const { parts } = trialTable(prepared, { count: COUNT, facts: {}, signal: abort.signal });
  const iterator = parts[Symbol.asyncIterator]();
  await iterator.next();
  abort.abort();
  await expect(iterator.next()).rejects.toMatchObject({ code: "cancelled" });
});
