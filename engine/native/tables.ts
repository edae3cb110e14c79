import type { Kernel } from "../random/kernel/kernel.ts";

/** Tables in a kernel's memory by their numbers: equal ones lie there once, since most models share the elementary functions'. */
const placedIn = new WeakMap<Kernel, Map<string, number>>();

/** Addresses of tables in the kernel's memory, or `null` if there is no room for more. */
export function placeTables(kernel: Kernel, tables: readonly (readonly number[])[]): readonly number[] | null {
  let placed = placedIn.get(kernel);
  if (placed === undefined) placedIn.set(kernel, (placed = new Map()));
  const found: number[] = [];
  for (const table of tables) {
    // 0 and −0 have one text.
    const key = table.map((number) => (Object.is(number, -0) ? "-0" : number)).join();
    let address = placed.get(key);
    if (address === undefined) {
      address = kernel.keep(table);
      if (address < 0) return null;
      placed.set(key, address);
    }
    found.push(address);
  }
  return found;
}
