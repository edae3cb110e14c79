// Measures what is asked for, tells it, and keeps it. Started by ../run.mjs, which bundles it.
import { spawnSync } from "node:child_process";
import { existsSync, mkdirSync, readFileSync, writeFileSync } from "node:fs";
import { join } from "node:path";
import { ALLOWED } from "./agreement.ts";
import { openContestant, type Contestant } from "./contestant.ts";
import { cPeer, numpyPeer, ours, type Peer, type Places } from "./contestants.ts";
import { describeMachine, loadNow } from "./machine.ts";
import { HELP, readOptions, type Options, type Part } from "./options.ts";
import { measureCold, measureWarm } from "./parts/adaptive.ts";
import { measureCalibration } from "./parts/calibration.ts";
import { measureConvolution } from "./parts/convolution.ts";
import { measureInputs } from "./parts/inputs.ts";
import { countInstructions } from "./parts/instructions.ts";
import { measureFleet } from "./parts/fleet.ts";
import { measureLongRun } from "./parts/long-run.ts";
import { measureAfterOthers } from "./parts/others.ts";
import { measureLoad } from "./parts/load.ts";
import { measurePrograms, type Workload } from "./parts/programs.ts";
import { measureCores, measureScaling } from "./parts/scaling.ts";
import { measurePaired } from "./parts/paired.ts";
import { measureSlow } from "./parts/slow.ts";
import { measureTyped } from "./parts/typed.ts";
import { compareOn } from "./parts/workloads.ts";
import { loadModel } from "../../../server/shelves/model.ts";
import { loadStudyFile } from "../../../server/shelves/study.ts";
import { pictureOf } from "./picture.ts";
import { digestOfSources, withEarlier, type Results } from "./results.ts";
import type { Row, Timing } from "./row.ts";
import { tableMarkdown, tableText, withTable } from "./table.ts";

const say = (text: string): void => void process.stdout.write(`${text}\n`);

interface Measured {
  readonly results: Results;
  /** Figures that disagree: nothing measured is worth keeping. */
  readonly faults: readonly string[];
  /** Parts that could not be measured to their end: the others are kept. */
  readonly failed: readonly string[];
}

async function measure(places: Places, options: Options): Promise<Measured> {
  const loadBefore = loadNow();
  const { only, rounds, trials } = options;
  const peers: Peer[] = [numpyPeer(places, "sort"), numpyPeer(places, "partition"), cPeer(places)];
  for (const text of new Set(peers.flatMap((peer) => ("absent" in peer ? [peer.absent] : [])))) say(`SKIPPED: ${text}`);
  const one = ours(places, 1);
  const two = ours(places, 2);
  const rows: Row[] = [];
  const timings: Timing[] = [];
  const faults: string[] = [];
  const failed: string[] = [];
  const names: Record<string, string> = {};
  let residentMb: readonly number[] = [];
  const take = (found: {
    readonly rows: readonly Row[];
    readonly timings?: readonly Timing[];
    readonly faults?: readonly string[];
  }): void => {
    rows.push(...found.rows);
    timings.push(...(found.timings ?? []));
    faults.push(...(found.faults ?? []));
  };
  /** Processes for one part alone, so that none waits with memory while another is measured. */
  const among = async (
    commands: readonly Parameters<typeof openContestant>[0][],
    work: (contestants: readonly Contestant[]) => Promise<void>,
  ): Promise<void> => {
    const open: Contestant[] = [];
    try {
      for (const command of commands) open.push(await openContestant(command));
      for (const { id, name } of open) names[id] = name;
      await work(open);
    } finally {
      for (const contestant of open) await contestant.close();
    }
  };
  /** Measures a part where it is asked for. One that fails is told at the end, and does not cost the others. */
  const part = async (name: Part, work: () => Promise<void>): Promise<void> => {
    if (!only.has(name)) return;
    say(`${new Date().toISOString().slice(11, 19)}  measuring ${name}`);
    await work().catch(
      (error: unknown) => void failed.push(`${name}: ${error instanceof Error ? error.message : String(error)}`),
    );
  };

  const compared = (["W1", "W2", "W3", "W6"] as const).filter((name) => only.has(name));
  if (compared.length > 0) {
    await among(
      [one, two, ...peers.flatMap((peer) => ("command" in peer ? [peer.command] : []))],
      async (contestants) => {
        for (const name of compared)
          await part(name, async () => take(await compareOn(name, contestants, trials, rounds)));
      },
    );
  }
  await part("W4", async () => take({ rows: [...measureCold(places, rounds), ...(await measureWarm(places))] }));
  await part("W5", () =>
    among([two], async ([contestant]) => {
      const found = await measureLongRun(contestant!, options.long ? 1e9 : 1e8, trials);
      ({ residentMb } = found);
      take(found);
    }),
  );
  await part("typed", async () => take(await measureTyped((id) => ours(places, 1, id), trials, rounds)));
  const loaded = async (name: string, file: string): Promise<Workload> => {
    const { study, reference } = await loadStudyFile(join(places.root, "tests/bench/workloads", file));
    return { name, model: await loadModel(reference), document: { ...study } };
  };
  await part("programs", async () => {
    const workloads = [
      await loaded("W1", "w1.ts"),
      await loaded("W2", "w2.ts"),
      await loaded("W6", "w6.ts"),
      await loaded("W1 typed", "w1-typed.json"),
    ];
    take({ rows: measurePrograms(workloads, await loaded("W1 in one piece", "w1-one-piece.ts"), rounds) });
  });
  await part("slow", async () => take({ rows: measureSlow(rounds) }));
  await part("scaling", async () => {
    await among([one, two], async ([first, second]) => take(await measureScaling(first!, second!, rounds)));
    const c = cPeer(places);
    for (const command of [one, ...("command" in c ? [c.command] : [])])
      take({ rows: await measureCores(command, rounds) });
  });
  await part("convolution", async () => take({ rows: measureConvolution(rounds) }));
  await part("inputs", async () => take({ rows: measureInputs(rounds) }));
  await part("paired", async () => {
    const { model, document } = await loaded("W1", "w1.ts");
    take({ rows: measurePaired(model, document, rounds) });
  });
  await part("load", async () => take({ rows: await measureLoad(places) }));
  await part("fleet", async () => take(await measureFleet(places, rounds)));
  await part("calibration", async () => take({ rows: measureCalibration(places, rounds) }));
  await part("others", async () => take(await measureAfterOthers((id) => ours(places, 1, id), trials, rounds)));
  await part("instructions", async () => {
    const c = cPeer(places, "x86-64-v3");
    take({ rows: countInstructions([one, ...("command" in c ? [c.command] : [])]) });
  });
  return {
    faults,
    failed,
    results: {
      measuredAt: new Date().toISOString(),
      rounds,
      machine: describeMachine(places.root, names, loadBefore),
      sources: digestOfSources(places.root),
      timings,
      rows,
      residentMb,
    },
  };
}

/** Writes results/latest.json and its picture, and the table in tests/bench/README.md. */
function keep({ root }: Places, options: Options, measured: Results): Results {
  const folder = join(root, "tests/bench/results");
  mkdirSync(folder, { recursive: true });
  const path = join(folder, "latest.json");
  const results = withEarlier(measured, options.only, path);
  writeFileSync(path, `${JSON.stringify(results, null, 1)}\n`);
  const picture = pictureOf(results);
  if (picture !== null) writeFileSync(join(folder, "latest.svg"), picture);
  if (options.readme) {
    const readme = join(root, "tests/bench/README.md");
    writeFileSync(readme, withTable(readFileSync(readme, "utf8"), tableMarkdown(results)));
  }
  return results;
}

/** The page's own figures, by the script that measures it in a browser. */
function measurePage({ root }: Places): void {
  const script = join(root, "tests/bench/page.mjs");
  if (!existsSync(script)) return;
  const { status } = spawnSync(process.execPath, [script, "--json", join(root, "tests/bench/results/page.json")], {
    cwd: root,
    stdio: "inherit",
  });
  if (status !== 0) process.exitCode = 1;
}

async function main(): Promise<void> {
  const [root, made, ...words] = process.argv.slice(2);
  const places: Places = { root: root!, made: made! };
  let options: Options | "help";
  try {
    options = readOptions(words);
  } catch (error) {
    process.stderr.write(`${(error as Error).message}\n`);
    process.exitCode = 2;
    return;
  }
  if (options === "help") {
    say(HELP.trimEnd());
    return;
  }
  const { results, faults, failed } = await measure(places, options);
  if (faults.length > 0) {
    process.stderr.write(
      `\nTHIS IS WRONG, so nothing is written:\n${faults.map((fault) => `  ${fault}`).join("\n")}\n\n`,
    );
    say(tableText(results));
    process.exitCode = 1;
    return;
  }
  say(`\n${tableText(options.keep ? keep(places, options, results) : results)}`);
  const several = new Set(results.timings.map(({ contestant }) => contestant)).size > 1;
  if (several)
    say(
      `Every contestant's figures agree within ${ALLOWED} standard errors; ours are equal bit for bit with one worker and with two.`,
    );
  if (options.page) measurePage(places);
  if (failed.length > 0) {
    process.stderr.write(
      `\nNOT MEASURED:\n${failed.map((one) => `  ${one}`).join("\n")}\n\n--only measures them again beside what is kept.\n`,
    );
    process.exitCode = 1;
  }
}

await main();
