import { queueAnswer, type QueueAnswer } from "../../viewer/api/queue.ts";
import { Fault } from "../errors.ts";
import { json } from "../openapi/described.ts";
import type { RouteRegistration } from "./route.ts";

/** Milliseconds that a queue has to answer. */
const PATIENCE = 3000;

export const queue: RouteRegistration = (router, { queue: read }) => {
  router.get(
    "/queue",
    "read",
    {
      id: "getQueue",
      summary: "What the workers of the queue are at",
      answers: {
        200: {
          description: "Workers with what they draw, and runs with how far they are; null without a queue.",
          content: json(queueAnswer),
        },
      },
      faults: ["queue-unreachable"],
    },
    async (_request, response) => {
      const late = new Promise<never>((_, reject) => {
        setTimeout(() => reject(new Fault("queue-unreachable", "The queue does not answer.")), PATIENCE).unref();
      });
      late.catch(() => undefined);
      response.json({ queue: read === null ? null : await Promise.race([read(), late]) } satisfies QueueAnswer);
    },
  );
};
