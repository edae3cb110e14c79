// A worker of a queue with one thread, as a long-lived process: it draws until its input ends.
import { queueFrom } from "../../../server/queue/settings.ts";
import { startWorker } from "../../../server/queue/worker.ts";

const [url] = process.argv.slice(2);
const worker = await startWorker(queueFrom(url!, "the bench"), {
  threads: 1,
  // The workloads are models of files.
  trust: { named: new Map(), all: true },
  seconds: 3600,
  tell: (words) => void process.stderr.write(`${words}\n`),
});
process.stdout.write(`${JSON.stringify({ name: worker.name })}\n`);
process.stdin.resume();
await new Promise((resolve) => process.stdin.once("end", resolve));
await worker.close();
process.exit(0);
