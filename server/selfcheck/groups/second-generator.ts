import seedrandom from "seedrandom";
import { compareGenerators } from "../../../engine/internal.ts";
import type { Finding } from "../../../viewer/api/selfcheck.ts";
import type { Check, CheckGroup } from "../check.ts";
import { near, same } from "../judge.ts";
import { plainTwister } from "../plain-generators.ts";
import { generatorOfRuns } from "../streams.ts";

/** The generator's results beside those of one unrelated to it: Mersenne Twister MT19937. */
export const secondGenerator: CheckGroup = {
  id: "second-generator",
  title: "Second generator: MT19937 against the first",
  checks: (quick) => [
    {
      title: "MT19937",
      source: "ISO/IEC 14882 (C++), [rand.predef]; mt19937ar.out of Matsumoto & Nishimura (2002)",
      lines: () => twisterWords(TWISTER),
    },
    {
      title: "the engine's second generator",
      source: "definition: MT19937 started by init_by_array, 53 bits a number",
      lines: stream,
    },
    ...(quick
      ? ["mass-calibration", "additive-one-dominant"]
      : ["mass-calibration", "additive-one-dominant", "gauge-block", "comparison-loss-10", "block-calibrator"]
    ).map(comparison),
  ],
};

/** Words that are published for it. */
export const TWISTER = {
  /** The 10 000th word when it is started with 5489. */
  tenThousandth: 4123659995,
  /** The first words when it is started with 0x123, 0x234, 0x345, 0x456. */
  byArray: [1067595299, 955945823, 477289528, 4107218783, 4228976476],
} as const;

/** @param words as published */
export function twisterWords({
  tenThousandth,
  byArray,
}: {
  readonly tenThousandth: number;
  readonly byArray: readonly number[];
}): Finding[] {
  const plain = plainTwister(5489);
  for (let i = 1; i < 10_000; i++) plain();
  const several = plainTwister([0x123, 0x234, 0x345, 0x456]);
  return [
    same("MT19937 started with 5489: the 10 000th word", tenThousandth, plain(), "the same word"),
    same(
      "MT19937 started with 0x123, 0x234, 0x345, 0x456: its first words",
      byArray.join(" "),
      byArray.map(() => several()).join(" "),
      "the same words",
    ),
  ];
}

async function stream(): Promise<Finding[]> {
  const engine = await generatorOfRuns("mt19937");
  const [seed, input, channel, block, count] = ["1", "x", 2, 7, 2000] as const;
  const out = new Float64Array(count);
  engine.open(seed, input)(block).uniforms(channel, out, count);
  const key = seedrandom(`trialband/mt|${seed.length}|${seed}|${input}`);
  const next = plainTwister([...[0, 1, 2, 3].map(() => key.int32() >>> 0), block, 0, channel, 0]);
  const equal = out.filter((x) => x === ((next() >>> 5) * 2 ** 26 + (next() >>> 6)) / 2 ** 53).length;
  return [same("numbers equal to plain MT19937", count, equal, "identical bits")];
}

const comparison = (name: string): Check => ({
  title: `${name} with both`,
  source: "compared with one another, nothing published",
  async lines(context) {
    // The second generator makes its normals by the inverse of the distribution function, which is slow.
    const trials = context.quick ? 50_000 : 500_000;
    const [first, second] = [
      await context.example(name, { trials }),
      await context.example(name, { trials, generator: "mt19937" }),
    ];
    const { figures, limit } = compareGenerators(first, second);
    return figures.map((row) =>
      near(
        `${name}: ${row.figure}`,
        row.first,
        row.second,
        limit * row.standardError,
        `${limit.toFixed(2)} standard errors of the difference: false-alarm rate 10⁻³ for the study`,
      ),
    );
  },
});
