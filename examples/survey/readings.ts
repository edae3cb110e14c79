// Comparison readings of one probe at 72 °C: reference, probe, probe, reference, eight times, a reading every 15 s.
import { formatInstant } from "trialband/evaluation";
import { platinum } from "trialband/models";
import { START } from "./baths.ts";

export const CYCLES = 8;
/** Error of the probe, K; drift of the bath, K/s; noise of a reading, K. Invented. */
export const PROBE_ERROR = 0.0183;
const DRIFT = 0.9e-3 / 60;
const NOISE = 0.4e-3;

/** A record in long form: time, channel, value, unit. */
export function readingsCsv(noise: ArrayLike<number>): string {
  const lines = ["time,channel,value,unit"];
  for (let i = 0; i < 4 * CYCLES; i++) {
    const elapsed = i * 15;
    const bath = 72.006 + DRIFT * elapsed + NOISE * noise[i]!;
    const time = formatInstant(START + elapsed);
    const ofProbe = i % 4 === 1 || i % 4 === 2;
    if (ofProbe) lines.push(`${time},HF-034,${platinum.iec60751.resistance(bath + PROBE_ERROR).toFixed(5)},Ω`);
    else lines.push(`${time},HR-02,${bath.toFixed(4)},°C`);
  }
  return `${lines.join("\n")}\n`;
}

export const READINGS_DESCRIPTION = {
  title: "Probe HF-034 against HR-02 at 72 °C",
  notes: "Invented readings of the Harrowfen Calibration Room, written by generate.ts.",
  log: { file: "readings-72.csv" },
  reference: "HR-02",
  channels: { "HR-02": { unit: "°C" }, "HF-034": { unit: "Ω", nominalResistance: 100 } },
};
