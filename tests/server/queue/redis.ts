import { spawn, spawnSync, type ChildProcess } from "node:child_process";
import { existsSync, mkdtempSync, rmSync } from "node:fs";
import { createServer, type AddressInfo } from "node:net";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { queueFrom, type QueueSettings } from "../../../server/queue/settings.ts";

const PLACES = [
  "/usr/bin/redis-server",
  "/usr/local/bin/redis-server",
  "/usr/bin/valkey-server",
  "/opt/homebrew/bin/redis-server",
];

/** Where the queue's server is, or Debian's if this process may install it; `null` without one. */
function found(): string | null {
  const here = (): string | undefined => PLACES.find((place) => existsSync(place));
  if (here() === undefined && process.getuid?.() === 0 && existsSync("/usr/bin/apt-get")) {
    console.log("No Redis here: installing Debian's redis-server for the queue's tests…");
    const quiet = { stdio: "ignore", timeout: 120_000 } as const;
    spawnSync("apt-get", ["update"], quiet);
    spawnSync("apt-get", ["install", "-y", "--no-install-recommends", "redis-server"], quiet);
  }
  return here() ?? null;
}

let looked: string | null | undefined;

/** The queue's server on this machine; without one, says that the tests which need it are skipped. */
export function redisHere(): string | null {
  if (looked !== undefined) return looked;
  looked = found();
  if (looked === null)
    console.warn(
      "No redis-server found: the tests of the queue are skipped. Install it (Debian: apt-get install redis-server).",
    );
  return looked;
}

export async function freePort(): Promise<number> {
  const server = createServer();
  await new Promise<void>((resolve) => server.listen(0, "127.0.0.1", resolve));
  const { port } = server.address() as AddressInfo;
  await new Promise((resolve) => server.close(resolve));
  return port;
}

export interface TestRedis {
  readonly url: string;
  /** Of the process that runs now. */
  readonly pid: number;
  readonly settings: QueueSettings;
  /** Ends it with −9. */
  kill(): Promise<void>;
  /** Starts it again on the same port, with what it has written. */
  restart(): Promise<void>;
  close(): Promise<void>;
}

/** Starts a Redis on loopback. @param more options, as `--appendonly yes`; with `--tls-…` it speaks encrypted alone */
export async function startRedis(...more: string[]): Promise<TestRedis> {
  const program = redisHere()!;
  const port = await freePort();
  const folder = mkdtempSync(join(tmpdir(), "trialband-redis-"));
  const encrypted = more.some((option) => option.startsWith("--tls-"));
  let child: ChildProcess;
  const start = async (): Promise<void> => {
    const ports = encrypted ? ["--port", "0", "--tls-port", String(port)] : ["--port", String(port)];
    const args = [...ports, "--bind", "127.0.0.1", "--save", "", "--dir", folder, ...more];
    child = spawn(program, args, { stdio: ["ignore", "pipe", "inherit"] });
    await new Promise<void>((resolve, reject) => {
      child.stdout!.on("data", (data: Buffer) => {
        if (data.includes("Ready to accept connections")) resolve();
      });
      child.once("exit", () => reject(new Error("redis-server ended")));
    });
  };
  const kill = async (): Promise<void> => {
    if (child.exitCode !== null || child.signalCode !== null) return;
    const ended = new Promise((resolve) => child.once("exit", resolve));
    child.kill("SIGKILL");
    await ended;
  };
  await start();
  const password = more[more.indexOf("--requirepass") + 1];
  const url = `${encrypted ? "rediss" : "redis"}://${more.includes("--requirepass") ? `:${encodeURIComponent(password!)}@` : ""}127.0.0.1:${port}`;
  return {
    url,
    get pid() {
      return child.pid!;
    },
    settings: queueFrom(url, "test"),
    kill,
    restart: start,
    async close() {
      await kill();
      rmSync(folder, { recursive: true });
    },
  };
}
