import { short } from "./table.ts";
import type { Results } from "./results.ts";
import type { Timing } from "./row.ts";

const WIDTH = 860;
const LEFT = 210;
const RIGHT = 150;
const BAR = 15;
const GAP = 5;
const GROUP_GAP = 26;
const SHOWN = ["W1", "W2", "W3", "W6"];

/** Fills that differ by shade and by hatching, so that they can be told apart without colour; each bar is named as well. */
const FILLS: Readonly<Record<string, string>> = {
  "ours-2": "#1d3f5e",
  "ours-1": "url(#even)",
  "numpy-sort": "url(#rising)",
  "numpy-partition": "url(#crossed)",
  c: "#ffffff",
};

const PATTERNS = `<defs>
<pattern id="even" width="6" height="6" patternUnits="userSpaceOnUse"><rect width="6" height="6" fill="#8fb0cc"/></pattern>
<pattern id="rising" width="6" height="6" patternUnits="userSpaceOnUse" patternTransform="rotate(45)"><rect width="6" height="6" fill="#fff"/><rect width="2" height="6" fill="#333"/></pattern>
<pattern id="crossed" width="6" height="6" patternUnits="userSpaceOnUse"><rect width="6" height="6" fill="#fff"/><path d="M0 0H6M0 0V6" stroke="#333" stroke-width="2"/></pattern>
</defs>`;

const escaped = (text: string): string =>
  text.replaceAll("&", "&amp;").replaceAll("<", "&lt;").replaceAll(">", "&gt;").replaceAll('"', "&quot;");

/** Bars of the medians with their quartiles, from zero, one group a workload; `null` where none of these was measured. */
export function pictureOf({ timings, machine, rounds }: Results): string | null {
  const groups = SHOWN.map((name) =>
    timings
      .filter(({ workload }) => workload === name)
      .toSorted((a, b) => a.milliseconds.median - b.milliseconds.median),
  ).filter((group) => group.length > 0);
  if (groups.length === 0) return null;
  const most = Math.max(...groups.flat().map(({ milliseconds }) => milliseconds.upper));
  const across = (milliseconds: number): number => LEFT + (milliseconds / most) * (WIDTH - LEFT - RIGHT);
  let y = 58;
  const parts: string[] = [];
  for (const group of groups) {
    parts.push(`<text x="12" y="${y + 12}" font-weight="bold">${escaped(group[0]!.workload)}</text>`);
    for (const timing of group) {
      parts.push(barOf(timing, y, across));
      y += BAR + GAP;
    }
    y += GROUP_GAP - GAP;
  }
  const description = groups
    .flat()
    .map(({ workload, title, milliseconds }) => `${workload}, ${title}: ${short(milliseconds.median)} ms`)
    .join("; ");
  return `<svg xmlns="http://www.w3.org/2000/svg" width="${WIDTH}" height="${y + 14}" viewBox="0 0 ${WIDTH} ${y + 14}" font-family="sans-serif" font-size="12" fill="#111" role="img" aria-labelledby="title description">
<title id="title">Time for 10^6 trials: Trialband beside NumPy and C</title>
<desc id="description">${escaped(description)}</desc>
${PATTERNS}
<rect width="${WIDTH}" height="${y + 14}" fill="#fff"/>
<text x="12" y="22" font-size="15" font-weight="bold">Time for 10⁶ trials, all results included (ms; shorter is better)</text>
<text x="12" y="40">Median of ${rounds} interleaved rounds; the line is from quartile to quartile. ${machine.cores} cores, Node ${escaped(machine.node.slice(1))}.</text>
${parts.join("\n")}
<path d="M${LEFT} 50V${y - 10}" stroke="#111"/>
</svg>
`;
}

function barOf(
  { contestant, title, milliseconds: { median, lower, upper } }: Timing,
  y: number,
  across: (milliseconds: number) => number,
): string {
  const middle = y + BAR / 2;
  const fixed = (value: number): string => value.toFixed(1);
  return [
    `<text x="${LEFT - 8}" y="${y + 12}" text-anchor="end">${escaped(title)}</text>`,
    `<rect x="${LEFT}" y="${y}" width="${fixed(across(median) - LEFT)}" height="${BAR}" fill="${FILLS[contestant] ?? "#ccc"}" stroke="#111"/>`,
    `<path d="M${fixed(across(lower))} ${middle}H${fixed(across(upper))}" stroke="#fff" stroke-width="4"/>`,
    `<path d="M${fixed(across(lower))} ${middle}H${fixed(across(upper))}M${fixed(across(lower))} ${middle - 4}v8M${fixed(across(upper))} ${middle - 4}v8" stroke="#111" stroke-width="1.5"/>`,
    `<text x="${fixed(Math.max(across(median), across(upper)) + 8)}" y="${y + 12}">${short(median)} ms</text>`,
  ].join("");
}
