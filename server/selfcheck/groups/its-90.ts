import { platinum } from "../../../models/index.ts";
import type { Finding } from "../../../viewer/api/selfcheck.ts";
import type { Check, CheckGroup } from "../check.ts";
import { near, printed } from "../judge.ts";

const SCALE = "The International Temperature Scale of 1990, Metrologia 27 (1990) 3–10, erratum 27, 107";

/** The reference function of ITS-90, its inverse, and thermometers on it. */
export const its90: CheckGroup = {
  id: "its-90",
  title: "ITS-90: reference function, inverse, deviation functions",
  checks: (quick) => [
    { title: "W_r at the fixed points", source: `${SCALE}, table 1`, lines: () => fixedPoints(FIXED_POINTS) },
    {
      title: "W_r over the range",
      source:
        "computed independently: 40-digit arithmetic from the published coefficients, in the form of NIST Technical Note 1265",
      lines: () => ratios(quick ? 100 : 10),
    },
    { title: "inverse", source: `${SCALE}, equations (9b) and (10b)`, lines: () => inverses(quick ? 2000 : 20_000) },
    ...THERMOMETERS.map(thermometer),
  ],
};

/** Name, T₉₀ in K, W_r as printed: eight decimals. */
export const FIXED_POINTS: readonly (readonly [name: string, T: number, Wr: string])[] = [
  ["e-H₂, triple", 13.8033, "0.00119007"],
  ["Ne, triple", 24.5561, "0.00844974"],
  ["O₂, triple", 54.3584, "0.09171804"],
  ["Ar, triple", 83.8058, "0.21585975"],
  ["Hg, triple", 234.3156, "0.84414211"],
  ["H₂O, triple", 273.16, "1.00000000"],
  ["Ga, melting", 302.9146, "1.11813889"],
  ["In, freezing", 429.7485, "1.60980185"],
  ["Sn, freezing", 505.078, "1.89279768"],
  ["Zn, freezing", 692.677, "2.56891730"],
  ["Al, freezing", 933.473, "3.37600860"],
  ["Ag, freezing", 1234.93, "4.28642053"],
];

/** @param points name, T₉₀ in K, W_r as printed */
export const fixedPoints = (points: typeof FIXED_POINTS): Finding[] =>
  points.map(([name, T, Wr]) => printed(`W_r at ${T} K (${name} point)`, Wr, platinum.referenceRatio(T)));

/** W_r from −250 °C to 960 °C in steps of 10 °C. */
const RATIOS: readonly number[] = [
  0.006840483207303, 0.02345168503993, 0.05126483967398, 0.08703225148348, 0.1273135342488, 0.1697518919323,
  0.2130127518522, 0.2564216363119, 0.2996704405683, 0.3426383780797, 0.3852945745365, 0.4276480381519, 0.4697229227712,
  0.5115467858694, 0.5531453984921, 0.5945408161259, 0.6357510387011, 0.6767904030991, 0.7176702601773, 0.7583996950885,
  0.7989861568753, 0.8394359213202, 0.8797543443586, 0.9199458839092, 0.9600138815249, 0.9999601046599, 1.03978459036,
  1.07948750936, 1.119069256866, 1.158530169547, 1.197870542262, 1.237090637842, 1.276190695385, 1.315170937195,
  1.354031574489, 1.392772811974, 1.431394851422, 1.46989789432, 1.508282143718, 1.546547805347, 1.584695088108,
  1.622724204008, 1.660635367616, 1.698428795125, 1.736104703074, 1.773663306797, 1.811104818665, 1.84842944617,
  1.885637389894, 1.922728841428, 1.959703981268, 1.996562976731, 2.033305979927, 2.069933125825, 2.106444530422,
  2.142840289067, 2.179120474936, 2.215285137694, 2.25133430235, 2.287267968325, 2.323086108733, 2.358788669899,
  2.394375571097, 2.42984670453, 2.465201935545, 2.500441103078, 2.535564020331, 2.570570475672, 2.605460233754,
  2.640233036841, 2.674888606331, 2.709426644466, 2.743846836216, 2.778148851321, 2.812332346476, 2.846396967645,
  2.880342352483, 2.914168132859, 2.947873937446, 2.981459394367, 3.01492413389, 3.04826779113, 3.081490008757,
  3.114590439685, 3.147568749722, 3.180424620164, 3.213157750312, 3.245767859909, 3.278254691449, 3.31061801238,
  3.342857617157, 3.374973329144, 3.406965002347, 3.438832522973, 3.470575810797, 3.502194820327, 3.533689541777,
  3.565060001814, 3.596306264102, 3.627428429624, 3.658426636796, 3.689301061361, 3.720051916078, 3.750679450218,
  3.781183948859, 3.811565732012, 3.841825153587, 3.87196260021, 3.901978489925, 3.931873270799, 3.961647419457,
  3.991301439587, 4.020835860434, 4.050251235345, 4.079548140383, 4.108727173077, 4.137788951345, 4.166734112653,
  4.195563313462, 4.224277229035, 4.252876553662, 4.281362001386,
];

const ratios = (step: number): Finding[] =>
  RATIOS.flatMap((Wr, i) => {
    const t = 10 * i - 250;
    return t % step === 0
      ? [
          near(
            `W_r at ${degrees(t)}`,
            Wr,
            platinum.referenceRatio(t + 273.15),
            1e-11,
            "figures given, and T rounded to a double",
          ),
        ]
      : [];
  });

const degrees = (t: number): string => `${String(t).replace("-", "−")} °C`;

/** Ends of the two branches, K; the lower one just below the point where the upper one begins. */
const LOWER = [13.8033, 273.15999] as const;
const UPPER = [273.16, 1234.93] as const;

function inverses(points: number): Finding[] {
  const { referenceRatio, approximateInverse, temperatureFromReferenceRatio } = platinum;
  const worst = (inverse: (Wr: number) => number, [from, to]: readonly [number, number]): number => {
    let largest = 0;
    for (let i = 0; i <= points; i++) {
      const T = from + ((to - from) * i) / points;
      // Written so that a NaN is kept.
      const error = Math.abs(inverse(referenceRatio(T)) - T);
      if (!(error <= largest)) largest = error;
    }
    return 1000 * largest;
  };
  const unit = "mK";
  const scan = { unit, source: "computed independently: 40-digit arithmetic from the published coefficients" };
  const [low, high] = [worst(approximateInverse, LOWER), worst(approximateInverse, UPPER)];
  const flat = points >= 20_000 ? 1e-5 : 1e-3;
  return [
    near("largest error of the approximate inverse below 273.16 K", 0, low, 0.1, "0.1 mK as the scale states", {
      unit,
    }),
    near(
      "approximate inverse below 273.16 K: its largest error by 40 digits",
      0.0956118,
      low,
      flat,
      "spacing of the points scanned",
      scan,
    ),
    near(
      "largest error of the approximate inverse above 273.16 K",
      0,
      high,
      0.135,
      "0.13 mK as the scale states, which the coefficients exceed by 0.004 mK",
      { unit },
    ),
    near(
      "approximate inverse above 273.16 K: its largest error by 40 digits",
      0.134139,
      high,
      flat,
      "spacing of the points scanned",
      scan,
    ),
    near(
      `largest error of T → W_r → T below 273.16 K, ${points + 1} points`,
      0,
      worst(temperatureFromReferenceRatio, LOWER),
      1e-7,
      "10⁻¹⁰ K, some roundings of T",
      { unit, source: "definition of an inverse" },
    ),
    near(
      `largest error of T → W_r → T above 273.16 K, ${points + 1} points`,
      0,
      worst(temperatureFromReferenceRatio, UPPER),
      1e-7,
      "10⁻¹⁰ K, some roundings of T",
      { unit, source: "definition of an inverse" },
    ),
  ];
}

/** Invented thermometers: W at fixed points, coefficients, and t with its resistance at R(273.16 K) = 25.512345 Ω. */
const THERMOMETERS = [
  {
    subRange: "4",
    points: { Ar: 0.216041326683292, Hg: 0.844180743235887 },
    coefficients: [-2.5e-4, -1.2e-5],
    rows: [
      [-189.3442, 5.51172086060185],
      [-100, 15.1706513336875],
      [-40, 21.416994068703],
      [-0.01, 25.5103101133719],
    ],
  },
  {
    subRange: "7",
    points: { Sn: 1.8925736460463, Zn: 2.56851552717974, Al: 3.3753940768376 },
    coefficients: [-2.4e-4, -1.5e-5, 3e-6],
    rows: [
      [20, 27.5397688019375],
      [150, 40.4255931524481],
      [400, 63.7823285124372],
      [660.323, 86.1142181992373],
    ],
  },
  {
    subRange: "8",
    points: { Sn: 1.89258441924381, Zn: 2.56853193247351 },
    coefficients: [-2.3e-4, -1e-5],
    rows: [
      [0.5, 25.5621904694251],
      [100, 35.5305569573386],
      [200, 45.2456189110263],
      [419.527, 65.5292728047809],
    ],
  },
] as const;

function thermometer({ subRange: number, points, coefficients, rows }: (typeof THERMOMETERS)[number]): Check {
  return {
    title: `a thermometer of sub-range ${number}`,
    source: `computed independently: 40-digit arithmetic on ${SCALE}, 3.3, table 5, sub-range ${number}`,
    lines() {
      const subRange = platinum.subRangeOf(number);
      const found = platinum.deviationCoefficients(subRange, points);
      const names = platinum.coefficientNames(subRange);
      return [
        ...coefficients.map((value, k) =>
          near(
            `sub-range ${number}: coefficient ${names[k] ?? k} from the fixed points`,
            value,
            found[k] ?? null,
            1e-7 * Math.abs(value),
            "15 digits of W, of which the deviation keeps 10",
          ),
        ),
        ...rows.map(([t, R]) =>
          near(
            `sub-range ${number}: t at ${R} Ω`,
            t,
            platinum.standardTemperature({ subRange, coefficients: found, triplePointResistance: 25.512345 }, R),
            1e-8,
            "coefficients found to 10⁻⁷",
            { unit: "°C" },
          ),
        ),
      ];
    },
  };
}
