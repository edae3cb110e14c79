import { spawnSync } from "node:child_process";
import { join } from "node:path";
import type { Command } from "./contestant.ts";

/** Where things are: the checkout, and the folder of what is made for the run. */
export interface Places {
  readonly root: string;
  readonly made: string;
}

export const ours = ({ root, made }: Places, workers: number, id = `ours-${workers}`): Command => ({
  id,
  title: `Trialband, ${workers} worker${workers === 1 ? "" : "s"}`,
  program: process.execPath,
  words: [join(made, "ours-child.mjs"), root, String(workers)],
});

/** A peer that is here, or why it is not. */
export type Peer = { readonly command: Command } | { readonly absent: string };

/** The Python that has NumPy: TRIALBAND_PYTHON, the first on the path, or Debian's, whose NumPy is older. */
export function pythonWithNumpy(): string | null {
  const candidates = [process.env["TRIALBAND_PYTHON"], "python3", "/usr/bin/python3"].filter(
    (name) => name !== undefined,
  );
  return candidates.find((name) => spawnSync(name, ["-c", "import numpy"]).status === 0) ?? null;
}

export function numpyPeer({ root }: Places, select: "sort" | "partition"): Peer {
  const python = pythonWithNumpy();
  if (python === null)
    return { absent: "NumPy is not here: no python3 that imports numpy (name one in TRIALBAND_PYTHON)." };
  const title = select === "sort" ? "NumPy, one sort" : "NumPy, tails alone";
  return {
    command: {
      id: `numpy-${select}`,
      title,
      program: python,
      words: [join(root, "tests/bench/peers/numpy_peer.py"), select],
    },
  };
}

/** Compiles the C file. @param processor what gcc may use: all that this one has, or what an emulator knows as well */
export function cPeer({ root, made }: Places, processor: "native" | "x86-64-v3" = "native"): Peer {
  const program = join(made, `peer-${processor}`);
  const words = ["-O3", `-march=${processor}`, "-o", program, join(root, "tests/bench/peers/peer.c"), "-lm"];
  const { status, error, stderr } = spawnSync("gcc", words, { encoding: "utf8" });
  if (error !== undefined) return { absent: "C is not here: there is no gcc." };
  if (status !== 0) return { absent: `C is not here: gcc failed: ${stderr.trim()}` };
  return { command: { id: "c", title: "C, 1 thread", program, words: [] } };
}
