/** The seed of a part of the campaign, which it prints: from the environment, or of the moment. */
export function seedOf(option: string): number {
  const seed = Number(process.env["TRIALBAND_SEED"] ?? Date.now() % 2 ** 31);
  process.stdout.write(`--${option}: seed ${seed} (TRIALBAND_SEED=${seed} does the same)\n`);
  return seed;
}
