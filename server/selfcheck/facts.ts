import { arch, cpus, platform, release, version } from "node:os";
import { VERSION } from "../../engine/index.ts";
import { packageRoot } from "../package-root.ts";
import { buildFacts } from "../record/build-facts.ts";

/** What was checked, and on what. */
export interface InstallationFacts {
  readonly version: string;
  /** Folder of the installation. */
  readonly folder: string;
  /** Commit the build was made from; `null` outside a checkout, `+` if files differed from it. */
  readonly commit: string | null;
  /** SHA-256 of the sources of the engine and of the models. */
  readonly engineDigest: string;
  readonly modelsDigest: string;
  readonly runtime: string;
  readonly system: string;
  readonly processor: string;
  readonly workers: number;
}

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
