import { ByteWriter, ParquetWriter } from "hyparquet-writer";
import type { TrialTable } from "./trial-table.ts";

/**
 * Trials as Apache Parquet: a column of doubles for each quantity under its name, a group of rows for each part. The file's
 * key-value metadata have the facts, and for each column its unit, symbol and meaning as `unit:name` and so on.
 */
export async function* parquetBytes({ columns, facts, parts }: TrialTable): AsyncGenerator<Uint8Array> {
  const writer = new ByteWriter();
  const filled = (): Uint8Array => {
    const bytes = new Uint8Array(writer.buffer.slice(0, writer.index));
    // The place in the file goes on; the memory serves the next group.
    writer.index = 0;
    return bytes;
  };
  // What is written is taken after each group, not at the end.
  writer.finish = () => undefined;
  const file = new ParquetWriter({
    writer,
    codec: "UNCOMPRESSED",
    schema: [
      { name: "trials", num_children: columns.length },
      ...columns.map(({ name }) => ({ name, type: "DOUBLE" as const, repetition_type: "REQUIRED" as const })),
    ],
    createdBy: facts["program"] ?? "trialband",
    kvMetadata: [
      ...Object.entries(facts).map(([key, value]) => ({ key, value })),
      ...columns.flatMap(({ name, unit, symbol, meaning }) => [
        { key: `unit:${name}`, value: unit },
        { key: `symbol:${name}`, value: symbol },
        { key: `meaning:${name}`, value: meaning },
      ]),
    ],
  });
  for await (const values of parts) {
    await file.write({
      columnData: columns.map(({ name }, i) => ({ name, data: values[i]!, encoding: "PLAIN" as const })),
      rowGroupSize: values[0]!.length,
    });
    yield filled();
  }
  await file.finish();
  yield filled();
}
