// Writes the block generator's words to stdout without end, for a battery of tests to read:
//
//   npm run --silent stream -- raw | dieharder -a -g 200
//   npm run --silent stream -- interleaved | dieharder -a -g 200
//   npm run --silent stream -- raw 5 | dieharder -d 102 -p 1000 -g 200      a weak result again, with another seed
//
// raw          one input's blocks one after the other
// interleaved  in the order in which trials use them: the words of one trial for twelve inputs, then the next trial; block after
//              block; and the same for the next of four neighbouring seeds
import { rawWords } from "../../engine/random/block-generator.ts";
import { BLOCK_TRIALS } from "../../engine/random/block.ts";

const INPUTS = Array.from({ length: 12 }, (_, i) => `x${i + 1}`);
/** First seed; another one gives a battery fresh data to repeat a weak result with. */
const FIRST = Number(process.argv[3] ?? "1");
const SEEDS = [0, 1, 2, 3].map((i) => String(FIRST + i));
const WORDS = 2 * BLOCK_TRIALS;

function* raw(): Generator<Uint32Array> {
  const draw = rawWords(SEEDS[0]!, "x1");
  for (let block = 0; ; block++) {
    const out = new Uint32Array(WORDS);
    draw(block, out);
    yield out;
  }
}

function* interleaved(): Generator<Uint32Array> {
  const draws = SEEDS.map((seed) => INPUTS.map((input) => rawWords(seed, input)));
  const columns = INPUTS.map(() => new Uint32Array(WORDS));
  for (let block = 0; ; block++) {
    for (const inputs of draws) {
      inputs.forEach((draw, i) => draw(block, columns[i]!));
      const out = new Uint32Array(WORDS * INPUTS.length);
      let at = 0;
      for (let t = 0; t < WORDS; t += 2) {
        for (const column of columns) {
          out[at++] = column[t]!;
          out[at++] = column[t + 1]!;
        }
      }
      yield out;
    }
  }
}

const kind = process.argv[2];
if ((kind !== "raw" && kind !== "interleaved") || !Number.isInteger(FIRST)) {
  process.stderr.write("stream: expected raw or interleaved, and a whole number as the first seed\n");
  process.exit(2);
}
process.stdout.on("error", () => process.exit(0));
for (const words of kind === "raw" ? raw() : interleaved()) {
  if (!process.stdout.write(new Uint8Array(words.buffer)))
    await new Promise((resolve) => process.stdout.once("drain", resolve));
}
