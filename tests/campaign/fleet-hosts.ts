import { spawnSync } from "node:child_process";
import { boardOn } from "../../server/queue/board.ts";
import { connect } from "../../server/queue/connection.ts";
import { startRedis } from "../server/queue/redis.ts";
import { startRun, startWorkerProcess, type Coordinator, type FleetProcess } from "./fleet-processes.ts";

const STUDY = "examples/harrowfen/steriliser-134.json";
const HOSTS = [1, 2];
const hostName = (host: number): string => `trialband${process.pid}-${host}`;
const linkName = (host: number): string => `tb${process.pid % 100_000}-${host}`;
/** Addresses for documentation and tests alone (RFC 5737, TEST-NET-2), 16 a host. */
const here = (host: number): string => `198.51.100.${16 * host + 1}`;
const there = (host: number): string => `198.51.100.${16 * host + 2}`;

const ip = (...args: string[]): boolean => spawnSync("ip", args, { stdio: "ignore" }).status === 0;

/** Makes a host of its own network, linked to this machine. */
const makeHost = (host: number): boolean =>
  ip("netns", "add", hostName(host)) &&
  ip("link", "add", linkName(host), "type", "veth", "peer", "name", "eth0", "netns", hostName(host)) &&
  ip("addr", "add", `${here(host)}/28`, "dev", linkName(host)) &&
  ip("link", "set", linkName(host), "up") &&
  ip("-n", hostName(host), "addr", "add", `${there(host)}/28`, "dev", "eth0") &&
  ip("-n", hostName(host), "link", "set", "eth0", "up");

function removeHosts(): void {
  for (const host of HOSTS) {
    ip("link", "del", linkName(host));
    ip("netns", "del", hostName(host));
  }
}

export interface HostCounts {
  /** Hosts that drew; 0 where this machine does not allow network namespaces. */
  readonly hosts: number;
  readonly wrong: readonly string[];
}

/**
 * Two hosts, each in a network of its own; one is cut off in the middle of a run and comes back. The record is that of
 * one thread, bit for bit, and the host that came back draws again.
 *
 * @param fewest trials; more, if they are drawn before a host can be cut off
 */
export async function hostsCampaign(fewest: number): Promise<HostCounts> {
  if (!HOSTS.every(makeHost)) {
    removeHosts();
    return { hosts: 0, wrong: [] };
  }
  const redis = await startRedis("--bind", "127.0.0.1", ...HOSTS.map(here), "--protected-mode", "no");
  const board = boardOn(await connect(redis.settings));
  const port = new URL(redis.url).port;
  const workers: FleetProcess[] = HOSTS.map((host) =>
    startWorkerProcess(`redis://${here(host)}:${port}`, ["ip", "netns", "exec", hostName(host)]),
  );
  const wrong: string[] = [];
  const drawn = async (place: number): Promise<number> => {
    const pid = workers[place]!.process.pid!;
    return (await board.workers()).find(({ name }) => name.endsWith(`/${pid}`))?.trials ?? 0;
  };
  const until = async (what: string, holds: () => Promise<boolean>): Promise<void> => {
    const began = performance.now();
    while (!(await holds())) {
      if (performance.now() - began > 300_000) throw new Error(`${what}: not within 300 s`);
      await new Promise((resolve) => setTimeout(resolve, 20));
    }
  };
  const signal = (name: "SIGSTOP" | "SIGCONT"): void => workers.forEach(({ process }) => void process.kill(name));
  /** A run that both hosts have begun and that is not near its end: they are held until one is cut off. */
  const heldRun = async (): Promise<{ readonly run: Coordinator; readonly trials: number }> => {
    for (let trials = fewest; ; trials *= 4) {
      const before = [await drawn(0), await drawn(1)] as const;
      const run = startRun(STUDY, trials, "hosts", redis.url);
      let left = trials;
      await until("both hosts draw", async () => {
        const [first, second] = [(await drawn(0)) - before[0], (await drawn(1)) - before[1]];
        left = trials - first - second;
        return (first > 0 && second > 0) || left === 0;
      });
      signal("SIGSTOP");
      if (left > trials / 2) return { run, trials };
      signal("SIGCONT");
      await run.kill();
    }
  };
  try {
    const { run, trials } = await heldRun();
    ip("link", "set", linkName(1), "down");
    const other = await drawn(1);
    signal("SIGCONT");
    await until("the other host goes on alone", async () => (await drawn(1)) > other + trials / 20);
    const before = await drawn(0);
    ip("link", "set", linkName(1), "up");
    const results = await run.results;
    const alone = await startRun(STUDY, trials, "hosts", null).results;
    if (results !== alone) wrong.push(`the record's figures have the digest ${results}; expected ${alone}`);
    // It may have come back after the end.
    const again = startRun(STUDY, trials, "hosts again", redis.url);
    await until("the host that was cut off draws again", async () => (await drawn(0)) > before);
    await again.kill();
    return { hosts: HOSTS.length, wrong };
  } catch (error) {
    return { hosts: HOSTS.length, wrong: [...wrong, (error as Error).message] };
  } finally {
    board.redis.disconnect();
    await Promise.all(workers.map((worker) => worker.kill()));
    await redis.close();
    removeHosts();
  }
}
