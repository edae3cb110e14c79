// A page of one's own, on all cores of the browser. With a bundler that reads TypeScript: npx vite examples/library/page
import { roundResult } from "trialband";
import { propagateOnWorkers } from "trialband/workers";
import study from "../several.ts";

const result = document.querySelector<HTMLElement>("#result")!;
const progress = document.querySelector<HTMLProgressElement>("#progress")!;
const cancel = document.querySelector<HTMLButtonElement>("#cancel")!;

const abort = new AbortController();
cancel.addEventListener("click", () => abort.abort(new Error("The run was cancelled.")));
try {
  const { measurands } = await propagateOnWorkers(study, {
    start: () => new Worker(new URL("./worker.ts", import.meta.url), { type: "module" }),
    signal: abort.signal,
    onProgress: ({ trials, limit }) => (progress.value = trials / limit),
  });
  const { symbol, unit, monteCarlo, validation } = measurands.larger;
  const { estimate, uncertainty } = roundResult(monteCarlo.estimate!, monteCarlo.standardUncertainty!, 2);
  result.textContent = `${symbol} = ${estimate} ${unit}, u = ${uncertainty} ${unit}. ${validation.sentence}`;
} catch (error) {
  result.textContent = error instanceof Error ? error.message : String(error);
} finally {
  progress.hidden = true;
  cancel.hidden = true;
}
