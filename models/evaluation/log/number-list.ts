/** Numbers of unknown count, in pieces of equal size: nothing is copied until all are there. */
export class NumberList {
  static readonly PIECE = 1 << 16;
  readonly #pieces: Float64Array[] = [];
  #length = 0;

  get length(): number {
    return this.#length;
  }

  push(value: number): void {
    const at = this.#length % NumberList.PIECE;
    if (at === 0) this.#pieces.push(new Float64Array(NumberList.PIECE));
    this.#pieces.at(-1)![at] = value;
    this.#length++;
  }

  /** All of them; the list is empty afterwards. */
  take(): Float64Array {
    const all = new Float64Array(this.#length);
    for (const [i, piece] of this.#pieces.entries()) {
      const start = i * NumberList.PIECE;
      all.set(piece.subarray(0, Math.min(NumberList.PIECE, this.#length - start)), start);
    }
    this.#pieces.length = 0;
    this.#length = 0;
    return all;
  }
}
