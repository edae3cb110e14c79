/** What a log keeps: nothing, the faults of the server, what a person should know of too, or every request too. */
export const LOG_LEVELS = ["silent", "error", "warn", "info"] as const;
export type LogLevel = (typeof LOG_LEVELS)[number];
