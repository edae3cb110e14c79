import { spawn } from "node:child_process";
import { once } from "node:events";
import { mkdtempSync, rmSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { createInterface } from "node:readline";

/** Work with a server of its own, as a person starts it, on an empty store that is gone afterwards. */
export async function withServer<T>(root: string, work: (home: string) => Promise<T>): Promise<T> {
  const data = mkdtempSync(join(tmpdir(), "trialband-bench-"));
  const server = spawn(process.execPath, [join(root, "bin.mjs"), "serve", "--port", "0", "--store", data], {
    stdio: ["ignore", "pipe", "inherit"],
  });
  try {
    const home = await new Promise<string>((resolve, reject) => {
      createInterface({ input: server.stdout }).on("line", (line) => {
        const found = /http:\S+/.exec(line);
        if (found !== null) resolve(found[0]);
      });
      server.once("exit", (code) => reject(new Error(`the server ended with code ${code}`)));
    });
    return await work(home);
  } finally {
    if (server.exitCode === null) {
      server.kill("SIGTERM");
      await once(server, "exit");
    }
    rmSync(data, { recursive: true });
  }
}

/** Asks for a run. @throws {Error} unless it is accepted */
export async function startRun(home: string, body: Readonly<Record<string, unknown>>): Promise<string> {
  const sent = await fetch(`${home}api/runs`, {
    method: "POST",
    headers: { "content-type": "application/json" },
    body: JSON.stringify(body),
  });
  const { id } = (await sent.json()) as { id?: string };
  if (id === undefined) throw new Error(`the server refused ${JSON.stringify(body)} with status ${sent.status}`);
  return id;
}

/** Follows a run to its last event. @throws {Error} unless it finished */
export async function untilFinished(home: string, id: string): Promise<void> {
  const type = lastEventIn(await (await fetch(`${home}api/runs/${id}/events`)).text());
  if (type !== "finished") throw new Error(`run ${id} ended as ${String(type)}`);
}

/** Type of the last event of a stream. */
export function lastEventIn(stream: string): string | null {
  const last = stream
    .trimEnd()
    .split("\n")
    .findLast((part) => part.startsWith("data: "));
  return last === undefined ? null : (JSON.parse(last.slice("data: ".length)) as { type: string }).type;
}
