import { z } from "zod";
import type { Immutable } from "../../engine/internal.ts";
import type { Followed } from "../../models/index.ts";
import { problem } from "./fault.ts";
import { logOutlines } from "./log-outlines.ts";

/** A log that the server was started to follow. */
const watchedLog = z
  .strictObject({ id: z.string(), name: z.string().describe("Name of the file, without its folder") })
  .meta({ id: "WatchedLog" });
export type WatchedLog = Immutable<z.output<typeof watchedLog>>;

/** `GET /api/watched-logs` */
export const watchedLogList = z.array(watchedLog);
export type WatchedLogList = Immutable<z.output<typeof watchedLogList>>;

const FIGURE = "a number greater than 0";
const positive = z.coerce.number(FIGURE).gt(0, FIGURE).lt(1e7, FIGURE);

/** The query of `GET /api/watched-logs/:id/events`: what is asked of the bath. */
export const watchQuery = z.object({
  criterion: positive.exactOptional().describe("Half-width the readings of a window must stay within, mK"),
  time: positive.exactOptional().describe("How long a calibration takes, min"),
  window: positive
    .exactOptional()
    .describe("Window that is judged, min; without it 30, or the calibration if that takes longer"),
  dates: z
    .enum(["day-first", "month-first"], "day-first or month-first")
    .exactOptional()
    .describe("Which number of 03/04/2026 is the day"),
  unit: z.enum(["°C", "K", "mK", "°F", "Ω"], "°C, K, mK, °F or Ω").exactOptional().describe("Of headings without one"),
  r0: positive.exactOptional().describe("R₀ in Ω of thermometers that are logged as resistances"),
});
export type WatchQuery = Immutable<z.output<typeof watchQuery>>;

const window = z.strictObject({ from: z.number(), to: z.number(), halfRange: z.number() });
const followed = z.strictObject({
  samples: z.int(),
  from: z.number(),
  to: z.number(),
  value: z.number().describe("Last reading, °C"),
  interval: z.number().nullable(),
  gaps: z.int(),
  drift: z.number().nullable().describe("K/s"),
  latest: window.extend({ whole: z.boolean() }),
  worst: window.nullable(),
  criterion: z
    .strictObject({
      limit: z.number(),
      met: z.boolean(),
      since: z.number().nullable(),
      steadyFrom: z.number(),
      remaining: z.number().describe("How long the bath must still hold, s"),
    })
    .nullable(),
}) satisfies z.ZodType<Followed>;

/** How a log stands. Times in s, temperatures in °C, differences in K. */
const watchState = z
  .strictObject({
    type: z.literal("state"),
    name: z.string(),
    there: z.boolean().describe("Whether the file is there"),
    window: z.number().describe("s"),
    thermometers: z.array(z.strictObject({ thermometer: z.string(), state: followed })),
    outlines: logOutlines,
    notes: z.array(z.string()),
    leftOut: z.strictObject({ rows: z.int(), latest: z.string().nullable() }),
  })
  .meta({ id: "WatchState" });
export type WatchState = Immutable<z.output<typeof watchState>>;

/** An event of a log that is followed: how it stands, or why it cannot be followed as it was asked. */
export const watchEvent = z
  .union([
    watchState,
    z.strictObject({ type: z.literal("failed"), name: z.string(), message: z.string(), problems: z.array(problem) }),
  ])
  .meta({ id: "WatchEvent" });
export type WatchEvent = Immutable<z.output<typeof watchEvent>>;
