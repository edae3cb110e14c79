/**
 * Hears what no task waits for: an answer that was on its way as its task was given up, or a thread that ended while it had
 * nothing to do. The library tells of them by an event that ends a process in which nobody listens.
 */
export const nobodyWaits = (): void => {};
