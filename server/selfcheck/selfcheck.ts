import { Fault, reportOf } from "../errors.ts";
import type { CheckEvent, CheckLine, SelfcheckSummary } from "../../viewer/api/selfcheck.ts";
import type { Check, CheckContext, CheckGroup } from "./check.ts";
import { openContext, type ContextOptions } from "./context.ts";
import { installationFacts } from "./facts.ts";

/** A group as the report has it. */
export interface GroupReport {
  readonly id: string;
  readonly title: string;
  readonly lines: readonly CheckLine[];
}

/** What a selfcheck leaves behind, for the quality file. Plain JSON. */
export interface SelfcheckReport extends SelfcheckSummary {
  readonly groups: readonly GroupReport[];
}

export interface SelfcheckOptions extends ContextOptions {
  readonly onEvent?: (event: CheckEvent) => void;
}

/**
 * Runs every check on this installation.
 *
 * A check that cannot be carried out is a failed line, not an end: the others still report what they find.
 *
 * @throws {Fault} `cancelled`
 */
export async function selfcheck(groups: readonly CheckGroup[], options: SelfcheckOptions): Promise<SelfcheckReport> {
  const startedAt = new Date();
  const clock = performance.now();
  const tell = options.onEvent ?? ((): void => undefined);
  const planned = groups.map((group) => ({ group, checks: group.checks(options.quick) }));
  const all = planned.reduce((sum, { checks }) => sum + checks.length, 0);
  const context = openContext(options);
  const reports: GroupReport[] = [];
  let done = 0;
  try {
    for (const { group, checks } of planned) {
      tell({ type: "group", id: group.id, title: group.title });
      const lines: CheckLine[] = [];
      for (const check of checks) {
        tell({ type: "step", title: check.title, done, all });
        for (const line of await carryOut(check, group.id, context)) {
          lines.push(line);
          tell({ type: "line", line });
        }
        done += 1;
        // Lets a cancel or a reader that has left take effect between checks that never wait.
        await new Promise<void>((resolve) => setImmediate(resolve));
        if (options.signal?.aborted) throw new Fault("cancelled", "The selfcheck was cancelled.");
      }
      reports.push({ id: group.id, title: group.title, lines });
    }
  } finally {
    await context.close();
  }
  tell({ type: "step", title: "", done, all });
  const lines = reports.flatMap((report) => report.lines);
  const passed = lines.filter((line) => line.passed).length;
  return {
    format: "trialband-selfcheck/1",
    startedAt: startedAt.toISOString(),
    seconds: Math.round(performance.now() - clock) / 1000,
    scope: options.quick ? "quick" : "full",
    seed: options.seed ?? null,
    installation: installationFacts(options.workers),
    passed,
    failed: lines.length - passed,
    groups: reports,
  };
}

async function carryOut(check: Check, group: string, context: CheckContext): Promise<CheckLine[]> {
  try {
    // Lines of one source stand together, sources in the order in which they come first.
    const bySource = new Map<string, CheckLine[]>();
    for (const found of await check.lines(context)) {
      const source = found.source ?? check.source;
      const line = { ...found, group, source };
      const known = bySource.get(source);
      if (known === undefined) bySource.set(source, [line]);
      else known.push(line);
    }
    return [...bySource.values()].flat();
  } catch (error) {
    const { code, message, problems } = reportOf(error);
    if (code === "cancelled") throw error;
    const obtained = [
      message,
      ...problems.map(({ place, value, accepted }) => `${place}: got ${value}; expected ${accepted}`),
    ].join(" ");
    const tolerance = { limit: null, basis: "the check can be carried out" };
    return [
      {
        group,
        what: check.title,
        source: check.source,
        published: "a result",
        obtained,
        unit: "",
        tolerance,
        passed: false,
        shown: { published: "a result", obtained, tolerance: tolerance.basis },
      },
    ];
  }
}
