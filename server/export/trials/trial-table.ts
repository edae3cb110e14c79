import { type Prepared } from "../../../engine/index.ts";
import { openTrialColumns } from "../../../engine/internal.ts";
import { cancelled } from "../../errors.ts";

/** A column of the trials: an input or a measurand. */
export interface TrialColumn {
  /** Its name in the study. */
  readonly name: string;
  readonly symbol: string;
  readonly meaning: string;
  readonly unit: string;
}

/** Trials to be written, a part at a time: memory does not grow with their number. */
export interface TrialTable {
  readonly columns: readonly TrialColumn[];
  readonly count: number;
  /** Facts by which the trials can be made again: title, seed, generator, version. */
  readonly facts: Readonly<Record<string, string>>;
  /** The values, one array for each column; each part but the last has as many trials as `partOf` gives. */
  readonly parts: AsyncIterable<readonly Float64Array[]>;
}

/** Trials of a part that has few columns: whole blocks, and a group of rows in Parquet. */
export const PART = 50_000;
/** Numbers of a part, for about which no other request comes through: some hundredths of a second. */
const NUMBERS = 500_000;
/** Trials of a block, as they are drawn. */
const BLOCK = 2500;

/** Trials of a part of a table. */
export const partOf = (columns: number): number =>
  Math.min(PART, BLOCK * Math.max(1, Math.floor(NUMBERS / (BLOCK * columns))));

export interface TableOptions {
  readonly count: number;
  readonly facts: Readonly<Record<string, string>>;
  /** Leave the inputs out. */
  readonly measurandsOnly?: boolean;
  readonly signal?: AbortSignal | undefined;
  readonly onProgress?: ((trials: number) => void) | undefined;
}

/** The trials of a study in their order, drawn here as they are asked for. */
export function trialTable({ model, source }: Prepared, options: TableOptions): TrialTable {
  const { count, facts, measurandsOnly = false, signal, onProgress } = options;
  const named = (quantities: Readonly<Record<string, Omit<TrialColumn, "name">>>): TrialColumn[] =>
    Object.entries(quantities).map(([name, { symbol, meaning, unit }]) => ({ name, symbol, meaning, unit }));
  const [inputs, measurands] = [named(model.inputs), named(model.measurands)];
  // A model may name a measurand as one of its inputs.
  const apart = measurands.map((column) =>
    inputs.some(({ name }) => name === column.name) ? { ...column, name: `${column.name}_result` } : column,
  );
  async function* parts(): AsyncGenerator<readonly Float64Array[]> {
    const draw = openTrialColumns(source);
    const part = partOf(inputs.length + measurands.length);
    for (let first = 0; first < count; first += part) {
      // Lets an interrupt, a cancel or another request come through.
      await new Promise<void>((resolve) => setImmediate(resolve));
      if (signal?.aborted) throw cancelled();
      const drawn = draw(first, Math.min(part, count - first));
      yield measurandsOnly ? drawn.measurands : [...drawn.inputs, ...drawn.measurands];
      onProgress?.(Math.min(count, first + part));
    }
  }
  return { columns: measurandsOnly ? measurands : [...inputs, ...apart], count, facts, parts: parts() };
}
