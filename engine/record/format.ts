/** The record's format that this version writes; `migrate.ts` reads the older ones. */
export const FORMAT = "trialband-record/2";
