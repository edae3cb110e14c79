import type { Commands } from "./command-line.ts";

/**
 * Every command: one line a command, in the order of the help. A command's file is loaded when it is asked for, so that
 * `run` does not wait for what `report` needs.
 */
export const commands: Commands = {
  run: async () => (await import("./run.ts")).run,
  check: async () => (await import("./check.ts")).check,
  init: async () => (await import("./init.ts")).init,
  explore: async () => (await import("./explore.ts")).explore,
  survey: async () => (await import("./survey.ts")).survey,
  watch: async () => (await import("./watch.ts")).watch,
  sweep: async () => (await import("./sweep.ts")).sweep,
  capability: async () => (await import("./capability.ts")).capability,
  plan: async () => (await import("./plan.ts")).plan,
  calibrate: async () => (await import("./calibrate.ts")).calibrate,
  readings: async () => (await import("./readings.ts")).readings,
  immersion: async () => (await import("./immersion.ts")).immersion,
  certificate: async () => (await import("./certificate.ts")).certificate,
  equivalence: async () => (await import("./equivalence.ts")).equivalence,
  history: async () => (await import("./history.ts")).history,
  budget: async () => (await import("./budget.ts")).budget,
  serve: async () => (await import("./serve.ts")).serve,
  worker: async () => (await import("./worker.ts")).worker,
  queue: async () => (await import("./queue.ts")).queue,
  users: async () => (await import("./users.ts")).users,
  token: async () => (await import("./token.ts")).token,
  backup: async () => (await import("./backup.ts")).backup,
  restore: async () => (await import("./restore.ts")).restore,
  audit: async () => (await import("./audit.ts")).audit,
  verify: async () => (await import("./verify.ts")).verify,
  report: async () => (await import("./report.ts")).report,
  dossier: async () => (await import("./dossier.ts")).dossier,
  workbook: async () => (await import("./workbook.ts")).workbook,
  trials: async () => (await import("./trials.ts")).trials,
  "d-si": async () => (await import("./d-si.ts")).dSi,
  selfcheck: async () => (await import("./selfcheck.ts")).selfcheck,
  keys: async () => (await import("./keys.ts")).keys,
  sign: async () => (await import("./sign.ts")).sign,
  models: async () => (await import("./models.ts")).models,
  schema: async () => (await import("./schema.ts")).schema,
};
