#!/usr/bin/env node
import { existsSync } from "node:fs";

const entry = new URL("./dist/cli.js", import.meta.url);
if (!existsSync(entry)) {
  process.stderr.write("trialband: not built yet; run npm run build in its folder.\n");
  process.exit(1);
}
const { main } = await import(entry.href);
await main(process.argv);
