import { arch, cpus, platform, release, version } from "node:os";
import { VERSION } from "../../engine/index.ts";
import type { InstallationFacts } from "../../viewer/api/selfcheck.ts";
import { packageRoot } from "../package-root.ts";
import { buildFacts } from "../record/build-facts.ts";

export function installationFacts(workers: number): InstallationFacts {
  const processors = cpus();
  return {
    version: VERSION,
    folder: packageRoot(),
    ...buildFacts,
    runtime: `Node.js ${process.version}, V8 ${process.versions.v8}`,
    system: `${platform()} ${release()} ${arch()}, ${version()}`,
    processor: `${processors[0]?.model.trim() || "unknown processor"}, ${processors.length} core${processors.length === 1 ? "" : "s"}`,
    workers,
  };
}
