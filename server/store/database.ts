import { createRequire } from "node:module";
import type Libsql from "libsql";
import { storeFault } from "./trouble.ts";

/** What a statement takes and gives. The library ends the process on any other type, so that none may reach it. */
export type Value = string | number | null | Uint8Array;

/** One connection to a database file. Every call returns once it is done; a write outside a transaction is on the disk then. */
export interface Database {
  /** @returns rows changed. @throws {Fault} `cannot-keep`: a full disk, a file that cannot be written or read */
  run(sql: string, values?: readonly Value[]): number;
  /** The first row, or `undefined`. */
  get<Row>(sql: string, values?: readonly Value[]): Row | undefined;
  all<Row>(sql: string, values?: readonly Value[]): Row[];
  /** Several statements in one text. */
  exec(sql: string): void;
  /**
   * All of the work or nothing of it: the write lock is taken first, and an error undoes what was done. One inside
   * another belongs to the outer one.
   */
  transaction<T>(work: () => T): T;
  close(): void;
}

/** Milliseconds that a write waits for another program's write, such as a backup or a restore. */
const PATIENCE = 10_000;

/** Loaded when a store is opened: the commands that keep nothing do without, also where it is not installed. */
const library = (): typeof Libsql => createRequire(import.meta.url)("libsql") as typeof Libsql;

/**
 * Opens a database file, which is made if it is not there.
 *
 * @param path `:memory:` keeps it in memory
 * @throws {Fault} `cannot-keep`
 */
export function openDatabase(path: string): Database {
  const Connection = library();
  const connection = guarded(path, () => new Connection(path));
  const statements = new Map<string, Libsql.Statement>();
  const prepared = (sql: string): Libsql.Statement => {
    const found = statements.get(sql) ?? connection.prepare(sql);
    statements.set(sql, found);
    return found;
  };
  let depth = 0;
  const database: Database = {
    run: (sql, values = []) => guarded(path, () => prepared(sql).run(checked(values)).changes),
    get: <Row>(sql: string, values: readonly Value[] = []) =>
      guarded(path, () => columnsOf(prepared(sql).get(checked(values)) as Row | undefined)),
    all: <Row>(sql: string, values: readonly Value[] = []) =>
      guarded(path, () => prepared(sql).all(checked(values)) as Row[]),
    exec: (sql) => guarded(path, () => void connection.exec(sql)),
    transaction(work) {
      if (depth > 0) return work();
      database.exec("BEGIN IMMEDIATE");
      depth += 1;
      try {
        const result = work();
        database.exec("COMMIT");
        return result;
      } catch (error) {
        // A full disk has ended the transaction already.
        if (connection.inTransaction) database.exec("ROLLBACK");
        throw error;
      } finally {
        depth -= 1;
      }
    },
    close() {
      statements.clear();
      connection.close();
    },
  };
  database.exec(`PRAGMA busy_timeout = ${PATIENCE}`);
  return database;
}

/** A row without what the library adds to a single one beside its columns: how long the statement took. */
function columnsOf<Row>(row: Row | undefined): Row | undefined {
  if (row === undefined) return undefined;
  const { _metadata, ...columns } = row as Row & { readonly _metadata?: unknown };
  return columns as Row;
}

/** As one array: the library reads a single value that is an object, or null, as named values. */
function checked(values: readonly Value[]): Value[] {
  for (const value of values) {
    // It would be cut there without a word. Text from outside comes as JSON, which has no such character.
    if (typeof value === "string" && value.includes("\0")) throw new RangeError("text with a NUL cannot be kept");
    if (!(value === null || ["string", "number"].includes(typeof value) || value instanceof Uint8Array))
      throw new TypeError(`${typeof value} cannot be kept in a column`);
  }
  return [...values];
}

function guarded<T>(path: string, work: () => T): T {
  try {
    return work();
  } catch (error) {
    throw storeFault(error, path);
  }
}
