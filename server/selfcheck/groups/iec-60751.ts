import { platinum } from "../../../models/index.ts";
import type { Finding } from "../../../viewer/api/selfcheck.ts";
import type { CheckGroup } from "../check.ts";
import { near, printed } from "../judge.ts";

const { iec60751: iec, tolerance, toleranceInOhms } = platinum;

/** Resistance, its inverse and the tolerance classes of industrial platinum thermometers. */
export const iec60751: CheckGroup = {
  id: "iec-60751",
  title: "IEC 60751: resistance table, inverse, tolerance classes",
  checks: (quick) => [
    {
      title: "table of resistance",
      source: "IEC 60751:2008 and 2022, table of resistance values, R₀ = 100 Ω",
      lines: () => table(RESISTANCES, quick ? 50 : 10),
    },
    {
      title: "temperature from resistance",
      source: "computed independently: 40-digit Newton on the equation of IEC 60751, 4.2",
      lines: () => inverse(quick ? 4 : 1),
    },
    { title: "tolerance classes", source: "IEC 60751:2008 and 2022, table of tolerance classes", lines: classes },
    { title: "tolerances in ohms", source: "IEC 751 with amendment 2 (1995), table of tolerances", lines: ohms },
  ],
};

/** R(t) in Ω as printed, from −200 °C to 850 °C in steps of 10 °C. */
export const RESISTANCES: readonly string[] = [
  "18.52",
  "22.83",
  "27.10",
  "31.34",
  "35.54",
  "39.72",
  "43.88",
  "48.00",
  "52.11",
  "56.19",
  "60.26",
  "64.30",
  "68.33",
  "72.33",
  "76.33",
  "80.31",
  "84.27",
  "88.22",
  "92.16",
  "96.09",
  "100.00",
  "103.90",
  "107.79",
  "111.67",
  "115.54",
  "119.40",
  "123.24",
  "127.08",
  "130.90",
  "134.71",
  "138.51",
  "142.29",
  "146.07",
  "149.83",
  "153.58",
  "157.33",
  "161.05",
  "164.77",
  "168.48",
  "172.17",
  "175.86",
  "179.53",
  "183.19",
  "186.84",
  "190.47",
  "194.10",
  "197.71",
  "201.31",
  "204.90",
  "208.48",
  "212.05",
  "215.61",
  "219.15",
  "222.68",
  "226.21",
  "229.72",
  "233.21",
  "236.70",
  "240.18",
  "243.64",
  "247.09",
  "250.53",
  "253.96",
  "257.38",
  "260.78",
  "264.18",
  "267.56",
  "270.93",
  "274.29",
  "277.64",
  "280.98",
  "284.30",
  "287.62",
  "290.92",
  "294.21",
  "297.49",
  "300.75",
  "304.01",
  "307.25",
  "310.49",
  "313.71",
  "316.92",
  "320.12",
  "323.30",
  "326.48",
  "329.64",
  "332.79",
  "335.93",
  "339.06",
  "342.18",
  "345.28",
  "348.38",
  "351.46",
  "354.53",
  "357.59",
  "360.64",
  "363.67",
  "366.70",
  "369.71",
  "372.71",
  "375.70",
  "378.68",
  "381.65",
  "384.60",
  "387.55",
  "390.48",
];

const degrees = (t: number): string => `${String(t).replace("-", "−")} °C`;

/** @param figures R(t) as printed, every 10 °C from −200 °C */
export const table = (figures: readonly string[], step: number): Finding[] =>
  figures.flatMap((figure, i) => {
    const t = 10 * i - 200;
    return t % step === 0 ? [printed(`R at ${degrees(t)}`, figure, iec.resistance(t), 0, "", { unit: "Ω" })] : [];
  });

/** R in Ω and t in °C, R₀ = 100 Ω. */
const INVERSES: readonly (readonly [R: number, t: number])[] = [
  [18.52008, -200.0],
  [20.0, -196.5719695802],
  [25.0, -184.9183474427],
  [30.0, -173.1576737262],
  [40.0, -149.335436147],
  [50.0, -125.1463608836],
  [60.0, -100.6311296231],
  [60.25584, -100.0],
  [70.0, -75.82804836671],
  [80.0, -50.77113703953],
  [84.270653, -39.99999755406],
  [90.0, -25.48835340935],
  [95.0, -12.7689427434],
  [99.0, -2.557688751857],
  [99.9, -0.2558560469995],
  [100.0, 0.0],
  [100.1, 0.2558753960049],
  [101.0, 2.559625309264],
  [107.7935, 20.0],
  [110.0, 25.68404666251],
  [119.3971, 49.99993507421],
  [120.0, 51.56605324743],
  [130.0, 77.65066889291],
  [138.5055, 100.0],
  [150.0, 130.4472587638],
  [175.856, 200.0],
  [200.0, 266.3481909583],
  [212.0515, 300.0],
  [250.0, 408.4499999836],
  [280.9775, 500.0],
  [300.0, 557.6879004146],
  [313.708, 600.0],
  [350.0, 715.2588751578],
  [390.48, 849.9961558861],
];

function inverse(every: number): Finding[] {
  const points = INVERSES.filter((_, i) => i % every === 0);
  let worst = 0;
  const steps = every === 1 ? 10_500 : 1050;
  for (let i = 0; i <= steps; i++) {
    const t = -200 + (1050 * i) / steps;
    const error = Math.abs(iec.temperatureOf(iec.resistanceRatio(t)) - t);
    if (!(error <= worst)) worst = error;
  }
  return [
    ...points.map(([R, t]) => near(`t at ${R} Ω`, t, iec.temperature(R), 1e-9, "figures given", { unit: "°C" })),
    near(`largest error of t → R → t, ${steps + 1} points`, 0, worst, 1e-10, "some roundings of t", {
      unit: "°C",
      source: "definition of an inverse",
    }),
    printed("α = (R₁₀₀ − R₀)/(100 °C·R₀)", "0.003851", (iec.resistance(100) - iec.resistance(0)) / 10_000, 0, "", {
      unit: "1/°C",
      source: "IEC 60751:2022, scope",
    }),
  ];
}

/** ±(a + b·|t|), °C. */
const CLASSES = [
  { name: "AA", a: 0.1, b: 0.0017 },
  { name: "A", a: 0.15, b: 0.002 },
  { name: "B", a: 0.3, b: 0.005 },
  { name: "C", a: 0.6, b: 0.01 },
] as const;

const classes = (): Finding[] =>
  CLASSES.flatMap(({ name, a, b }) =>
    [-100, 0, 72, 300].map((t) =>
      near(
        `class ${name} at ${degrees(t)}: ±(${a} + ${b}|t|)`,
        a + b * Math.abs(t),
        tolerance(name, t),
        1e-12,
        "roundings",
        {
          unit: "°C",
        },
      ),
    ),
  );

/** t in °C; the limits of class A and B in Ω as printed: two decimals. */
const OHMS: readonly (readonly [t: number, A: string | null, B: string])[] = [
  [-200, "0.24", "0.56"],
  [-100, "0.14", "0.32"],
  [0, "0.06", "0.12"],
  [100, "0.13", "0.30"],
  [200, "0.20", "0.48"],
  [300, "0.27", "0.64"],
  [400, "0.33", "0.79"],
  [500, "0.38", "0.93"],
  [600, "0.43", "1.06"],
  [650, "0.46", "1.13"],
  [700, null, "1.17"],
  [800, null, "1.28"],
  [850, null, "1.34"],
];

const ohms = (): Finding[] =>
  OHMS.flatMap(([t, A, B]) => [
    ...(A === null ? [] : [printed(`class A at ${degrees(t)}`, A, toleranceInOhms("A", t), 0, "", { unit: "Ω" })]),
    t === 650 || t === 700 || t === 850
      ? printed(
          `class B at ${degrees(t)}`,
          B,
          toleranceInOhms("B", t),
          0.0045,
          "0.0045 Ω: the table rounds the limit in °C first",
          {
            unit: "Ω",
          },
        )
      : printed(`class B at ${degrees(t)}`, B, toleranceInOhms("B", t), 0, "", { unit: "Ω" }),
  ]);
