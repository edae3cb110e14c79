import { spawn, spawnSync } from "node:child_process";
import { once } from "node:events";
import { mkdtempSync, rmSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { createInterface } from "node:readline";
import { nearestRank, ratiosOf, spreadOf } from "../arithmetic.ts";
import { pythonWithNumpy, type Places } from "../contestants.ts";
import { row, type Row } from "../row.ts";

const STUDY = "harrowfen/steriliser-134";
const REQUESTS = 200;
const WARMING = 20;

function timed(program: string, words: readonly string[], cwd: string): number {
  const clock = performance.now();
  const { status, stderr, error } = spawnSync(program, words, { cwd, encoding: "utf8" });
  const milliseconds = performance.now() - clock;
  if (status !== 0) throw new Error(`${program} ${words.join(" ")} failed: ${error?.message ?? stderr.trim()}`);
  return milliseconds;
}

/** W4 cold: a whole process of ours, beside a whole process of NumPy that draws 10⁶ numbers once. */
export function measureCold({ root }: Places, rounds: number): Row[] {
  const cold = (): number => timed(process.execPath, ["bin.mjs", "run", `examples/${STUDY}.json`], root);
  const python = pythonWithNumpy();
  const least = python === null ? null : (): number => timed(python, [join(root, "tests/bench/peers/draw_once.py")], root);
  // Once each, so that both programs' files are in memory.
  cold();
  least?.();
  const ours: number[] = [];
  const theirs: number[] = [];
  for (let i = 0; i < rounds; i++) {
    const turns = [() => ours.push(cold()), () => (least === null ? 0 : theirs.push(least()))];
    for (const turn of i % 2 === 0 ? turns : turns.toReversed()) turn();
  }
  const note = `${rounds} whole processes each`;
  const own = spreadOf(ours);
  const ratio = theirs.length === 0 ? null : ratiosOf(ours, theirs);
  return [
    row("W4", "W4 cold, whole process, against a NumPy script that draws 10^6 once", "≤0.6", ratio?.median ?? null, { spread: ratio, note: ratio === null ? "NumPy is not here" : note }),
    row("W4", "W4 cold, whole process", null, own.median, { spread: own, unit: "ms", note }),
  ];
}

/** W4 warm: requests to a server one after the other, each from its sending to the run's last event. */
export async function measureWarm({ root }: Places): Promise<Row[]> {
  const data = mkdtempSync(join(tmpdir(), "trialband-bench-"));
  const server = spawn(process.execPath, [join(root, "bin.mjs"), "serve", "--port", "0", "--data", data], { stdio: ["ignore", "pipe", "inherit"] });
  try {
    const home = await new Promise<string>((resolve, reject) => {
      createInterface({ input: server.stdout }).on("line", (line) => {
        const found = /http:\S+/.exec(line);
        if (found !== null) resolve(found[0]);
      });
      server.once("exit", (code) => reject(new Error(`the server ended with code ${code}`)));
    });
    for (let i = 0; i < WARMING; i++) await runToItsEnd(home, `warming-${i}`);
    const times: number[] = [];
    for (let i = 0; i < REQUESTS; i++) {
      const clock = performance.now();
      await runToItsEnd(home, `request-${i}`);
      times.push(performance.now() - clock);
    }
    const spread = spreadOf(times);
    const late = nearestRank(times, 0.99);
    return [
      row("W4", "W4 warm through the interface: median", "≤60", spread.median, { spread, unit: "ms", note: `${REQUESTS} requests, one after the other, each with a seed of its own` }),
      row("W4", "W4 warm through the interface: 99th percentile over the median", "≤3", late / spread.median, { unit: "×", note: `99th percentile ${late.toFixed(1)} ms` }),
    ];
  } finally {
    if (server.exitCode === null) {
      server.kill("SIGTERM");
      await once(server, "exit");
    }
    rmSync(data, { recursive: true });
  }
}

/** Asks for a run and follows it to its last event. @throws {Error} unless it finished */
async function runToItsEnd(home: string, seed: string): Promise<void> {
  const sent = await fetch(`${home}api/runs`, { method: "POST", headers: { "content-type": "application/json" }, body: JSON.stringify({ study: STUDY, seed }) });
  const { id } = (await sent.json()) as { id?: string };
  if (id === undefined) throw new Error(`the server refused ${STUDY} with status ${sent.status}`);
  const events = await fetch(`${home}api/runs/${id}/events`);
  const last = (await events.text()).trimEnd().split("\n\n").findLast((part) => part.startsWith("data: "));
  const { type } = JSON.parse(last!.slice("data: ".length)) as { type: string };
  if (type !== "finished") throw new Error(`run ${id} ended as ${type}`);
}
