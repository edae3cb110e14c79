// Ours as a long-lived process: a line "W1 1000000 7" is answered by one line of JSON, "others" runs 20 other models.
import { createInterface } from "node:readline";
import { openOurs } from "./ours.ts";

const [root, workers, queue] = process.argv.slice(2);
const ours = await openOurs(root!, Number(workers), queue);
const say = (answer: unknown): void => void process.stdout.write(`${JSON.stringify(answer)}\n`);

say({ name: `Node ${process.version.slice(1)}, V8 ${process.versions.v8}` });
for await (const line of createInterface({ input: process.stdin })) {
  const [workload, trials, seed] = line.trim().split(/\s+/);
  if (workload === "others") say({ models: await ours.runOthers() });
  else if (workload !== "") say(await ours.run(workload!, Number(trials), Number(seed)));
}
await ours.close();
