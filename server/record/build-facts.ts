/** What the build knew of the sources it was made from. */
export interface BuildFacts {
  /** The commit, with `+` if files differed from it; `null` outside a checkout. */
  readonly commit: string | null;
  /** SHA-256 over the sources of `engine/` and of `models/`: file names and contents, in order. */
  readonly engineDigest: string;
  readonly modelsDigest: string;
}

declare const TRIALBAND_BUILD: BuildFacts | undefined;

/** The build's facts; code that runs unbuilt, as in the tests of single files, says so. */
export const buildFacts: BuildFacts =
  typeof TRIALBAND_BUILD === "undefined"
    ? { commit: null, engineDigest: "unbuilt", modelsDigest: "unbuilt" }
    : TRIALBAND_BUILD;
