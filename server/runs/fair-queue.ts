/** Things that wait, each in somebody's name. Names take turns, so that one who asks for much does not keep others waiting. */
export class FairQueue<T> {
  readonly #waiting = new Map<string, T[]>();
  #size = 0;

  get size(): number {
    return this.#size;
  }

  add(name: string, item: T): void {
    const own = this.#waiting.get(name);
    if (own === undefined) this.#waiting.set(name, [item]);
    else own.push(item);
    this.#size += 1;
  }

  /** The next one: the first of the name whose turn it is, which is then the last to have its turn again. */
  take(): T | undefined {
    const [turn] = this.#waiting;
    if (turn === undefined) return undefined;
    const [name, items] = turn;
    const item = items.shift();
    this.#waiting.delete(name);
    if (items.length > 0) this.#waiting.set(name, items);
    this.#size -= 1;
    return item;
  }

  /** @returns whether it waited */
  remove(item: T): boolean {
    for (const [name, items] of this.#waiting) {
      const place = items.indexOf(item);
      if (place < 0) continue;
      items.splice(place, 1);
      if (items.length === 0) this.#waiting.delete(name);
      this.#size -= 1;
      return true;
    }
    return false;
  }

  clear(): void {
    this.#waiting.clear();
    this.#size = 0;
  }
}
