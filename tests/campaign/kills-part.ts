import { killCampaign } from "./kills.ts";
import type { Part } from "./part.ts";

/** Kills of a server at random moments: nothing that was acknowledged is lost. */
export const kills: Part = {
  option: "kills",
  help: "kill a server N times at random moments and account for every acknowledged run, note and removal",
  usual: 200,
  async run(count) {
    const { lost, ...counts } = await killCampaign(count, 1);
    return { counts, failures: lost };
  },
};
