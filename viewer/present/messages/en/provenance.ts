/** English words: remarks, cautions and where the figures come from. `{…}` stands for what is filled in; other languages keep the same places. */
export const provenanceWords = {
  remarks: {
    none: "There is nothing to remark.",
  },
  cautions: {
    none: "The model names no hazard. The laboratory's own rules and the safety data sheets of what it uses apply all the same.",
    intro:
      "Hazards to anyone who makes this measurement. The list comes with the model and is not complete; local codes and qualified persons decide.",
  },
  provenance: {
    caption: "Where the figures come from",
    model: "Model",
    modelDigest: "Digest of the model's source",
    engine: "Program",
    commit: "commit {commit}",
    engineDigest: "Digest of the program's source",
    generator: "Random number generator",
    seed: "Seed",
    trials: "Trials",
    trialsText: "{count} in batches of {batch}; {stop}",
    fixed: "the number asked for",
    settled: "stopped when every figure had settled to δ/5",
    limit: "stopped at the limit before every figure had settled",
    bits: "Reproduces exactly, bit for bit",
    bitsAny: "on any machine and with any number of threads",
    bitsOne: "on the same version of the JavaScript engine only",
    started: "Run",
    startedText: "{date}, {seconds} s, threads: {workers}",
    runtime: "Environment",
    recordDigest: "Digest of the record",
    resultsDigest: "Digest of its results",
    studyDigest: "Digest of its study",
    digestNote: "SHA-256 over canonical JSON (RFC 8785)",
    unsealed: "computed for this report; the record carries no seal",
    unbuilt: "not known: the program ran unbuilt",
    again:
      "To check the record and repeat the evaluation, bit for bit, with the record's file and Trialband {version} installed:",
    againNote: "The record holds the whole study: every stated figure, the seed and the rule that ended the trials.",
    ownModel: "The record carries the source of the laboratory's model, which is code: read it before it is run.",
    validation:
      "The program is checked on this installation against published worked examples (ISO/IEC\u00a017025:2017, 7.11.2) by {command}.",
    signatures: "For the file",
    evaluatedBy: "Evaluated by",
    reviewedBy: "Reviewed by",
    dateAndSignature: "Date and signature",
  },
} as const;
