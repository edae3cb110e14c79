import type { TrialColumn, TrialTable } from "./trial-table.ts";

/** The header's length is a multiple of this, so that the data begin aligned. */
const ALIGNED = 64;
const NUMBER = new Uint8Array(new Uint16Array([1]).buffer)[0] === 1 ? "<f8" : ">f8";

/**
 * Trials as one structured array in NumPy's format NPY, version 3.0: a field for each quantity under its name, with meaning,
 * symbol and unit as the field's title. `numpy.load(file)["name"]` gives a column, also with `mmap_mode="r"`.
 */
export async function* npyBytes({ columns, count, parts }: TrialTable): AsyncGenerator<Uint8Array> {
  yield header(columns, count);
  for await (const values of parts) {
    const rows = values[0]!.length;
    const table = new Float64Array(rows * values.length);
    values.forEach((column, j) => {
      for (let i = 0; i < rows; i++) table[i * values.length + j] = column[i]!;
    });
    yield new Uint8Array(table.buffer);
  }
}

function header(columns: readonly TrialColumn[], count: number): Uint8Array {
  const fields = columns.map(
    ({ name, symbol, meaning, unit }) =>
      `((${quoted(`${name}: ${meaning}, ${symbol} / ${unit}`)}, ${quoted(name)}), '${NUMBER}')`,
  );
  const words = `{'descr': [${fields.join(", ")}], 'fortran_order': False, 'shape': (${count},), }`;
  const text = new TextEncoder().encode(words);
  // Magic, version, the length itself and the line's end are counted too.
  const whole = Math.ceil((12 + text.length + 1) / ALIGNED) * ALIGNED;
  const bytes = new Uint8Array(whole).fill(0x20);
  bytes.set([0x93, 0x4e, 0x55, 0x4d, 0x50, 0x59, 3, 0]);
  new DataView(bytes.buffer).setUint32(8, whole - 12, true);
  bytes.set(text, 12);
  bytes[whole - 1] = 0x0a;
  return bytes;
}

/** A text as Python writes it: what stands in a study may hold quotes and line ends. */
const quoted = (text: string): string =>
  `'${text
    .replaceAll("\\", "\\\\")
    .replaceAll("'", "\\'")
    .replace(
      /[\u0000-\u001f\u007f-\u009f\u2028\u2029\ud800-\udfff]/g,
      (sign) => `\\u${sign.charCodeAt(0).toString(16).padStart(4, "0")}`,
    )}'`;
