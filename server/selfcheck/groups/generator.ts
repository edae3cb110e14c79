import seedrandom from "seedrandom";
import { type Statement } from "../../../engine/index.ts";
import { readStatement, type GeneratorFamily } from "../../../engine/internal.ts";
import type { Finding } from "../../../viewer/api/selfcheck.ts";
import type { CheckGroup } from "../check.ts";
import { FALSE_ALARM, near, same, STANDARD_ERRORS } from "../judge.ts";
import { plainPhilox, plainSfc32, uniformOf } from "../plain-generators.ts";
import { correlationOf, kolmogorovDistance, kolmogorovLimit, meanOf } from "../sample-tests.ts";
import { BLOCK, column, generatorOfRuns, normals, uniforms, type Fill } from "../streams.ts";

/** The generator that trials are drawn with. Its draws here are those of a fixed seed, the same on every machine. */
export const generator: CheckGroup = {
  id: "generator",
  title: "Random numbers: known answers, shape, independence",
  checks: (quick) => {
    const blocks = quick ? 40 : 200;
    return [
      {
        title: "Philox",
        source: "Salmon et al., SC11 (2011): file kat_vectors distributed with the paper's code",
        lines: () => philoxAnswers(PHILOX),
      },
      {
        title: "sfc32",
        source: "PractRand 0.95, seeding by one word; words from the tests of an independent public implementation",
        lines: () => sfc32Words(SFC32),
      },
      {
        title: "the engine's streams",
        source: "definition of the generator: sfc32 in four lanes, started by Philox4x32-10",
        lines: streams,
      },
      {
        title: "uniform numbers",
        source: "moments 1/(k + 1) and distribution function of the uniform distribution",
        lines: async () => uniformShape(await family(), blocks),
      },
      {
        title: "normal numbers",
        source: "moments and distribution function of the standard normal",
        lines: async () => normalShape(await family(), blocks),
      },
      {
        title: "distributions drawn",
        source: "each distribution's own distribution function, checked against closed forms above",
        lines: async () => samplers(await family(), quick ? 20 : 100),
      },
      {
        title: "independence",
        source: "r of independent columns: nearly normal with standard deviation 1/√n",
        lines: async () => independence(await family(), quick ? 8 : 40),
      },
      {
        title: "cutting the work",
        source: "definition: a stream's numbers depend on seed, input and block alone",
        lines: async () => cutting(await family()),
      },
    ];
  },
};

const family = (): Promise<GeneratorFamily> => generatorOfRuns("sfc32x4-philox");
const hex = (words: readonly number[]): string => words.map((word) => word.toString(16).padStart(8, "0")).join(" ");

/** Counter, key, words; the third are the first digits of π in base 16. */
export const PHILOX: readonly (readonly [counter: string, key: string, words: string])[] = [
  ["00000000 00000000 00000000 00000000", "00000000 00000000", "6627e8d5 e169c58d bc57ac4c 9b00dbd8"],
  ["ffffffff ffffffff ffffffff ffffffff", "ffffffff ffffffff", "408f276d 41c83b0e a20bc7c6 6d5451fd"],
  ["243f6a88 85a308d3 13198a2e 03707344", "a4093822 299f31d0", "d16cfe09 94fdcceb 5001e420 24126ea1"],
];

const wordsOf = (text: string): number[] => text.split(" ").map((word) => Number.parseInt(word, 16));

/** @param answers counter, key, words */
export const philoxAnswers = (answers: typeof PHILOX): Finding[] =>
  answers.map(([counter, key, words]) =>
    same(
      `Philox4x32-10 of counter ${counter.slice(0, 8)}…, key ${key.slice(0, 8)}…`,
      words,
      hex(plainPhilox(wordsOf(counter), wordsOf(key))),
      "the same words",
    ),
  );

/** Seeded with 12345, the first words after twelve that are left out. */
const SFC32: readonly number[] = [
  235160590, 2967261163, 116171463, 2882324903, 362604721, 4227106926, 1933307004, 1608300071, 2256615412, 2701957640,
];

function sfc32Words(words: readonly number[]): Finding[] {
  const next = plainSfc32(0, 12345, 0, 1);
  for (let i = 0; i < 12; i++) next();
  return [
    same(
      "sfc32 seeded with 12345: its first ten words",
      words.join(" "),
      words.map(() => next()).join(" "),
      "the same words",
    ),
  ];
}

const STREAMS = [
  ["1", "x", 0, 0],
  ["Tarnbeck, probe HF-021", "bathAxial", 3, 7],
  ["1", "x", 31, 2 ** 32 + 5],
] as const;

async function streams(): Promise<Finding[]> {
  const engine = await family();
  return STREAMS.flatMap(([seed, input, channel, block]) => {
    const key = seedrandom(`trialband/1|${seed.length}|${seed}|${input}`);
    const [k0, k1, c2, c3] = [key.int32(), key.int32(), key.int32(), key.int32()];
    const upper = Math.floor(block / 2 ** 32);
    const count = 2000;
    const out = new Float64Array(count);
    const substream = engine.open(seed, input)(block);
    substream.uniforms(channel, out, count);
    let equal = 0;
    for (let lane = 0; lane < 4; lane++) {
      const [a, b, c, d] = plainPhilox([block % 2 ** 32, (upper << 16) | (channel << 2) | lane, c2, c3], [k0, k1]) as [
        number,
        number,
        number,
        number,
      ];
      const next = plainSfc32(a, b, c, d);
      for (let i = 0; i < 12; i++) next();
      for (let i = lane; i < count; i += 4) if (out[i] === uniformOf(next(), next())) equal += 1;
    }
    let own = 0;
    for (let index = 0; index < 100; index++) {
      const sequence = substream.sequence(channel, index);
      for (let step = 0; step < 2; step++) {
        const words = plainPhilox(
          [block % 2 ** 32, 0x80000000 | (step << 17) | (channel << 12) | index, c2 ^ upper, c3],
          [k0, k1],
        ) as [number, number, number, number];
        if (sequence.uniform() === uniformOf(words[2], words[3])) own += 1;
        if (sequence.uniform() === uniformOf(words[0], words[1])) own += 1;
      }
    }
    const where = `seed ${seed}, input ${input}, channel ${channel}, block ${block}`;
    return [
      same(`numbers equal to plain sfc32 started by plain Philox: ${where}`, count, equal, "identical bits"),
      same(`numbers of trials' own sequences equal to plain Philox: ${where}`, 400, own, "identical bits"),
    ];
  });
}

const FIVE = `${STANDARD_ERRORS} standard errors: false-alarm rate ${FALSE_ALARM}, as of a normal mean`;
const KOLMOGOROV_ALARM = 1e-6;
const KOLMOGOROV = "Kolmogorov's limit law: false-alarm rate 10⁻⁶";

function uniformShape(engine: GeneratorFamily, blocks: number): Finding[] {
  const u = column(engine, uniforms, blocks);
  const n = u.length;
  let astray = 0;
  const set = new Float64Array(52);
  for (const x of u) {
    if (!(x > 0 && x < 1) || !Number.isInteger(x * 2 ** 52 - 0.5)) astray += 1;
    let bits = Math.floor(x * 2 ** 52);
    for (let bit = 0; bit < 52; bit++) {
      set[bit]! += bits % 2;
      bits = Math.floor(bits / 2);
    }
  }
  const worst = Math.max(...set.map((count) => Math.abs(count - n / 2) / (Math.sqrt(n) / 2)));
  return [
    same(`${n} uniforms: outside (0, 1) or off the centres of 2⁵² cells`, 0, astray, "none"),
    ...[1, 2, 3, 4].map((k) => {
      const error = Math.sqrt((1 / (2 * k + 1) - 1 / ((k + 1) * (k + 1))) / n);
      return near(
        `${n} uniforms: moment ${k}`,
        1 / (k + 1),
        meanOf(u, (x) => x ** k),
        STANDARD_ERRORS * error,
        FIVE,
      );
    }),
    near(
      `${n} uniforms: the bit of 52 that is set least evenly, in standard errors`,
      0,
      worst,
      6,
      "6 standard errors: false-alarm rate 10⁻⁷ for all 52",
    ),
    near(
      `${n} uniforms: distance from the distribution function`,
      0,
      kolmogorovDistance(u, (x) => x),
      kolmogorovLimit(n, KOLMOGOROV_ALARM),
      KOLMOGOROV,
    ),
  ];
}

/** E Xᵏ of a standard normal. */
const MOMENTS = [1, 0, 1, 0, 3, 0, 15, 0, 105, 0, 945, 0, 10395] as const;

function normalShape(engine: GeneratorFamily, blocks: number): Finding[] {
  const z = column(engine, normals, blocks);
  const n = z.length;
  const normal = readStatement(
    { distribution: "normal", estimate: 0, standardUncertainty: 1 },
    "selfcheck",
  ).distribution;
  // Where the layers of the ziggurat end and its tail begins (256 layers).
  const tail = 3.6541528853610088;
  const expected = n * normal.distributionFunction(-tail);
  const beyond = [-1, 1].map((side) => z.filter((x) => side * x > tail).length);
  return [
    ...[1, 2, 3, 4, 5, 6].map((k) => {
      const error = Math.sqrt((MOMENTS[2 * k]! - MOMENTS[k]! * MOMENTS[k]!) / n);
      return near(
        `${n} normals: moment ${k}`,
        MOMENTS[k]!,
        meanOf(z, (x) => x ** k),
        STANDARD_ERRORS * error,
        FIVE,
      );
    }),
    near(
      `${n} normals: beyond ±3.654, either side`,
      [expected, expected],
      beyond,
      STANDARD_ERRORS * Math.sqrt(expected),
      "5 standard deviations of a Poisson count",
    ),
    near(
      `${n} normals: distance from the distribution function`,
      0,
      kolmogorovDistance(z, (x) => normal.distributionFunction(x)),
      kolmogorovLimit(n, KOLMOGOROV_ALARM),
      KOLMOGOROV,
    ),
  ];
}

const SAMPLED: readonly (readonly [name: string, statement: Statement])[] = [
  ["triangular", { distribution: "triangular", lower: -1, upper: 1 } as Statement],
  ["trapezoidal, β = ½", { distribution: "trapezoidal", lower: -1, upper: 1, topRatio: 0.5 } as Statement],
  [
    "curvilinear trapezoid, d = 0.5",
    { distribution: "curvilinear-trapezoid", lower: -1, upper: 1, limitHalfWidth: 0.5 } as Statement,
  ],
  ["arcsine", { distribution: "arcsine", lower: -1, upper: 1 } as Statement],
  ["t with ν = 2", { distribution: "t", estimate: 0, standardUncertainty: 1, degreesOfFreedom: 2 } as Statement],
  ["t with ν = 9", { distribution: "t", estimate: 0, standardUncertainty: 1, degreesOfFreedom: 9 } as Statement],
];

const samplers = (engine: GeneratorFamily, blocks: number): Finding[] =>
  SAMPLED.map(([name, statement]) => {
    const { distribution } = readStatement(statement, "selfcheck");
    const drawn = column(engine, (from, _channel, out, count) => distribution.sample(from, out, count), blocks, {
      input: name,
    });
    const distance = kolmogorovDistance(drawn, (x) => distribution.distributionFunction(x));
    return near(
      `${drawn.length} draws, ${name}: distance from the distribution function`,
      0,
      distance,
      kolmogorovLimit(drawn.length, KOLMOGOROV_ALARM),
      KOLMOGOROV,
    );
  });

const itself = (x: number): number => x;
const square = (x: number): number => x * x;
/** Values, squares, and one with the other's square. */
const TRANSFORMS = [
  [itself, itself],
  [square, square],
  [itself, square],
  [square, itself],
] as const;

function independence(engine: GeneratorFamily, blocks: number): Finding[] {
  const n = blocks * BLOCK;
  return (
    [
      ["uniforms", uniforms],
      ["normals", normals],
    ] as const
  ).flatMap(([kind, fill]: readonly [string, Fill]) => {
    const base = column(engine, fill, blocks, { seed: "1" });
    const other = (place: object): Float64Array => column(engine, fill, blocks, { seed: "1", ...place });
    const pairs: readonly (readonly [string, Float64Array, Float64Array])[] = [
      ["neighbouring seeds", base, other({ seed: "2" })],
      ["seeds 1 and 11", base, other({ seed: "11" })],
      ["inputs", base, other({ input: "y" })],
      ["inputs that share a beginning", base, other({ input: "x1" })],
      ["neighbouring channels", base, other({ channel: 1 })],
      ["neighbouring blocks", base, other({ firstBlock: 1 })],
      ["blocks 2³² apart", base, other({ firstBlock: 2 ** 32 })],
      ["neighbouring draws", base.subarray(0, n - 1), base.subarray(1)],
      ["draws of neighbouring trials of one lane", base.subarray(0, n - 4), base.subarray(4)],
    ];
    return pairs.map(([name, a, b]) => {
      const r = TRANSFORMS.map(([f, g]) => correlationOf(a, b, f, g) * Math.sqrt(a.length));
      const worst = r.reduce((most, value) => (Math.abs(value) <= Math.abs(most) ? most : value), 0);
      return near(
        `${kind}, ${name}: greatest r of values and squares, in standard errors`,
        0,
        worst,
        STANDARD_ERRORS,
        `${STANDARD_ERRORS} standard errors: false-alarm rate 2·10⁻⁶ for all four`,
      );
    });
  });
}

const cutting = (engine: GeneratorFamily): Finding[] =>
  (
    [
      ["uniforms", uniforms],
      ["normals", normals],
    ] as const
  ).map(([kind, fill]) => {
    const whole = column(engine, fill, 4, { channel: 3 });
    const open = engine.open("selfcheck", "x");
    let equal = 0;
    let asked = 0;
    for (const block of [3, 0, 2, 1, 3]) {
      for (const count of [1, 2, 3, 5, 1001, BLOCK]) {
        const out = new Float64Array(count);
        fill(open(block), 3, out, count);
        asked += count;
        equal += out.filter((x, i) => x === whole[block * BLOCK + i]).length;
      }
    }
    return same(
      `${kind}: numbers that stay the same with blocks in another order and asked for in parts`,
      asked,
      equal,
      "identical bits",
    );
  });
