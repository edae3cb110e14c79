import type { ComparisonSequence, Indication } from "./comparison-sequence.ts";

/**
 * Differences of readings that were taken together: probe and reference at the same moment. Nothing has to be
 * interpolated, so that any drift of the bath that both follow has cancelled (common practice in comparison calibration).
 *
 * @param indications one log in order of time, °C
 * @returns `null` if no reading of the probe has one of the reference at its own moment: they were taken in turn
 */
export function pairedReadings(
  indications: readonly Indication[],
  reference: string,
  probe: string,
): ComparisonSequence | null {
  const references = new Map(
    indications.filter(({ channel }) => channel === reference).map(({ time, value }) => [time, value]),
  );
  const ofProbe = indications.filter(({ channel }) => channel === probe);
  const cycles = ofProbe.flatMap(({ time, value }) => {
    const at = references.get(time);
    if (at === undefined) return [];
    return [
      { from: time, to: time, difference: value - at, reference: at, drift: 0, probeReadings: 1, referenceReadings: 1 },
    ];
  });
  if (cycles.length === 0) return null;
  return { probe, cycles, shared: false, sharedCorrelation: 0, unbracketed: ofProbe.length - cycles.length };
}
