import type { Program, ProgramFunction } from "../../engine/internal.ts";
import type { AlgebraPrograms } from "../../models/index.ts";

/** Programs that a build made of the registered models, and of the functions that a typed equation may call. */
export interface BuiltPrograms {
  /** By a model's id. */
  readonly models: Readonly<Record<string, Program>>;
  readonly algebra: AlgebraPrograms;
}

/** What a file of them holds: tables once for all, as the bytes of their doubles in base64. */
interface Stored {
  readonly sources: string;
  readonly tables: readonly string[];
  readonly models: Readonly<Record<string, Omit<Program, "tables"> & { readonly tables: readonly number[] }>>;
  readonly algebra: {
    readonly places: AlgebraPrograms["places"];
    readonly functions: readonly ProgramFunction[];
    readonly tables: readonly number[];
  };
}

/** @param sources digest of the sources that they were made of */
export function storedText({ models, algebra }: BuiltPrograms, sources: string): string {
  const tables: string[] = [];
  const placed = (of: Program["tables"]): number[] =>
    of.map((table) => {
      const text = Buffer.from(Float64Array.from(table).buffer).toString("base64");
      const place = tables.indexOf(text);
      return place < 0 ? tables.push(text) - 1 : place;
    });
  const stored = {
    sources,
    models: Object.fromEntries(
      Object.entries(models).map(([id, program]) => [id, { ...program, tables: placed(program.tables) }]),
    ),
    algebra: { ...algebra, tables: placed(algebra.tables) },
    tables,
  } satisfies Stored;
  return JSON.stringify(stored, (_, value: unknown) => writable(value));
}

/** Numbers that JSON has no text for, as what gives them. */
function writable(value: unknown): unknown {
  const node = value as { readonly op?: unknown; readonly value?: unknown } | null;
  if (node?.op !== "number" || typeof node.value !== "number") return value;
  const number = (of: number): object => ({ op: "number", value: of });
  if (Object.is(node.value, -0)) return { op: "neg", of: number(0) };
  if (Number.isFinite(node.value)) return value;
  const top = Number.isNaN(node.value) ? 0 : Math.sign(node.value);
  return { op: "div", left: number(top), right: number(0) };
}

/** @returns `null` if they were made of other sources */
export function readStored(text: string, sources: string): BuiltPrograms | null {
  const stored = JSON.parse(text) as Stored;
  if (stored.sources !== sources) return null;
  const tables = stored.tables.map((table) => {
    const bytes = Uint8Array.from(Buffer.from(table, "base64"));
    return Array.from(new Float64Array(bytes.buffer));
  });
  const taken = (places: readonly number[]): Program["tables"] => places.map((place) => tables[place]!);
  return {
    models: Object.fromEntries(
      Object.entries(stored.models).map(([id, program]) => [id, { ...program, tables: taken(program.tables) }]),
    ),
    algebra: { ...stored.algebra, tables: taken(stored.algebra.tables) },
  };
}
