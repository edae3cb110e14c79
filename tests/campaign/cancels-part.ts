import { cancelCampaign } from "./cancels.ts";
import type { Part } from "./part.ts";

/** MB that the memory may differ by from one moment of the campaign to another: what ten cancelled runs kept. */
const ROOM = 50;

/** Runs that are cancelled: the memory they took is given back. */
export const cancels: Part = {
  option: "cancels",
  help: "cancel N runs, each with some megabytes of trials, and weigh the memory",
  usual: 1000,
  async run(count, tell) {
    const figures = await cancelCampaign(count, ({ cancelled, arrays }) =>
      tell(`${cancelled} cancelled, ${arrays} MB`),
    );
    const first = figures[0]!;
    const last = figures.at(-1)!;
    const grown = last.heap + last.arrays - first.heap - first.arrays;
    return {
      counts: {
        "runs cancelled": last.cancelled,
        "MB of heap at first": first.heap,
        "MB of heap at last": last.heap,
        "MB of arrays at first": first.arrays,
        "MB of arrays at last": last.arrays,
        "MB resident at first": first.resident,
        "MB resident at last": last.resident,
      },
      failures: grown <= ROOM ? [] : [`heap and arrays grew by ${grown} MB; expected at most ${ROOM} MB`],
    };
  },
};
