import { createHash } from "node:crypto";
import { existsSync, readdirSync, readFileSync } from "node:fs";
import { join } from "node:path";
import type { Machine } from "./machine.ts";
import type { Part } from "./options.ts";
import { partNames } from "./options.ts";
import type { Row, Timing } from "./row.ts";

/** What a run of the benchmarks leaves: results/latest.json. */
export interface Results {
  readonly measuredAt: string;
  readonly rounds: number;
  readonly machine: Machine;
  /** SHA-256 over engine, models and server, shortened: figures of other sources are not mixed with these. */
  readonly sources: string;
  readonly timings: readonly Timing[];
  readonly rows: readonly Row[];
  /** Resident memory over W5 in MB. */
  readonly residentMb: readonly number[];
}

export function digestOfSources(root: string): string {
  const hash = createHash("sha256");
  for (const folder of ["engine", "models", "server"]) {
    const files = readdirSync(join(root, folder), { recursive: true, encoding: "utf8" }).filter((name) =>
      name.endsWith(".ts"),
    );
    for (const name of files.toSorted())
      hash.update(`${folder}/${name}\n`).update(readFileSync(join(root, folder, name)));
  }
  return hash.digest("hex").slice(0, 16);
}

/** Adds what an earlier run of the same sources on the same machine has of the parts not measured now. */
export function withEarlier(now: Results, measured: ReadonlySet<Part>, path: string): Results {
  if (!existsSync(path)) return now;
  const earlier = JSON.parse(readFileSync(path, "utf8")) as Results;
  if (
    earlier.sources !== now.sources ||
    earlier.machine.processor !== now.machine.processor ||
    earlier.machine.node !== now.machine.node
  )
    return now;
  const rows = [...earlier.rows.filter(({ part }) => !measured.has(part)), ...now.rows];
  const again = new Set(now.timings.map(({ workload }) => workload));
  const timings = [...earlier.timings.filter(({ workload }) => !again.has(workload)), ...now.timings];
  return {
    ...now,
    machine: { ...now.machine, contestants: { ...earlier.machine.contestants, ...now.machine.contestants } },
    rows: rows.toSorted((a, b) => partNames.indexOf(a.part) - partNames.indexOf(b.part)),
    timings: timings.toSorted((a, b) => a.workload.localeCompare(b.workload)),
    residentMb: measured.has("W5") ? now.residentMb : earlier.residentMb,
  };
}
