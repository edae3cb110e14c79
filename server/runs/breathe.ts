/** Lets events come through: an interrupt, a cancel, a worker's answer. */
export const breathe = (): Promise<void> => new Promise<void>((resolve) => setImmediate(resolve));
