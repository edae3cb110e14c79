// A page: the record on the page's own thread and on its workers, as text that another program compares.
import { propagate } from "trialband";
import { propagateOnWorkers } from "trialband/workers";
import density, { study } from "../density.mjs";

const start = () => new Worker(new URL("./worker.ts", import.meta.url), { type: "module" });

async function digest(value: unknown): Promise<string> {
  const bytes = await crypto.subtle.digest("SHA-256", new TextEncoder().encode(JSON.stringify(value)));
  return [...new Uint8Array(bytes)].map((byte) => byte.toString(16).padStart(2, "0")).join("");
}

const said = document.querySelector("#said")!;
try {
  const alone = await digest(propagate(density, study));
  const shared = await digest(await propagateOnWorkers(density, study, { start, workers: 2 }));
  const abort = new AbortController();
  // So many that no machine is done before it hears of its own progress.
  const long = { ...study, trials: 100_000_000 };
  const cancelled = await propagateOnWorkers(density, long, {
    start,
    workers: 2,
    signal: abort.signal,
    onProgress: () => abort.abort(new Error("enough")),
  }).catch((error: unknown) => (error as Error).message);
  said.textContent = `${alone} ${shared} ${cancelled}`;
} catch (error) {
  said.textContent = `failed: ${(error as Error).stack}`;
}
document.body.dataset["done"] = "";
