import { formatInstant, secondsOfCivil } from "../text/instant.ts";
import type { Template } from "./template.ts";

const LOG = "comparison-readings";
/** 2026-01-12, 10 o'clock. */
const START = secondsOfCivil(2026, 1, 12)! + 10 * 3600;
const CYCLES = 6;
/** Seconds from one reading to the next. */
const INTERVAL = 20;
const ORDER = ["reference", "probe", "probe", "reference"] as const;
/** Last digits of the readings, in mK; invented, without a pattern. */
const DIGITS = [2, 0, 1, 3, 1, 2, 0, 2, 3, 1, 1, 0, 2, 2, 1, 3, 0, 1, 2, 1, 3, 2, 0, 1] as const;

const rows = (): (string | number)[][] =>
  Array.from({ length: CYCLES * ORDER.length }, (_, i) => {
    const channel = ORDER[i % ORDER.length]!;
    const drift = 0.2 * i;
    const milli = 37_000 + drift + DIGITS[i]! + (channel === "probe" ? 18 : 0);
    return [formatInstant(START + INTERVAL * i), channel, Math.round(milli) / 1000, "°C"];
  });

/** Readings of a comparison in the order reference, probe, probe, reference. */
export const readingsTemplate: Template = {
  name: LOG,
  for: "readings",
  title: "the readings of a comparison",
  content: { kind: "table", rows: [["time", "channel", "value", "unit"], ...rows()] },
};

/** What those readings are. */
export const readingsDescriptionTemplate: Template = {
  name: "comparison",
  for: "program",
  title: "the description of a comparison",
  content: {
    kind: "document",
    document: {
      title: "Probe against the reference at 37 °C",
      log: { file: `${LOG}.csv` },
      reference: "reference",
      channels: { reference: { unit: "°C" }, probe: { unit: "°C" } },
    },
  },
};
