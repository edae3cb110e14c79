/** Arrays of numbers that are sent. */
export type Numbers = Float64Array | Uint32Array | Uint16Array;

/** How an array is written. */
const PLAIN = 0;
/** Counts up to 255, a byte each. */
const BYTES = 1;
/** Counts of which most are 0: for each other one the zeros before it and the count, as variable-length integers. */
const GAPS = 2;
/** Counts up to 65 535, two bytes each. */
const PAIRS = 3;

export interface NumbersHead {
  readonly length: number;
  readonly form: number;
  /** Bytes that it takes. */
  readonly bytes: number;
}

/** Shorter arrays are written plainly. */
const SHORT = 64;
/** Greatest count that takes part in the short forms. */
const MOST = 2 ** 31 - 1;
/** Longest array that is read: many times the longest that is sent. */
const LONGEST = 2 ** 26;

/** An array as bytes, low byte first. */
export function writeNumbers(array: Numbers): { readonly head: NumbersHead; readonly bytes: Uint8Array } {
  const { length } = array;
  const found = array instanceof Float64Array && length >= SHORT ? countsIn(array) : null;
  const [form, bytes] =
    found === null
      ? [PLAIN, plainBytes(array)]
      : 3 * found.others < length
        ? [GAPS, gapsOf(array)]
        : found.greatest <= 255
          ? [BYTES, new Uint8Array(array)]
          : found.greatest <= 65_535
            ? [PAIRS, plainBytes(new Uint16Array(array))]
            : [PLAIN, plainBytes(array)];
  return { head: { length, form, bytes: bytes.length }, bytes };
}

/** The array: in these very bytes, where it may begin there. @throws {RangeError} bytes that do not hold such an array */
export function readNumbers(
  type: "Float64Array" | "Uint32Array" | "Uint16Array",
  { length, form }: NumbersHead,
  bytes: Uint8Array,
): Numbers {
  if (!Number.isInteger(length) || length < 0 || length > LONGEST)
    throw new RangeError(`no array has ${length} numbers`);
  if (form === BYTES || form === GAPS || form === PAIRS) {
    if (type !== "Float64Array") throw new RangeError(`${type} is not written so`);
    if (form === GAPS) return fromGaps(bytes, length);
    if (form === PAIRS)
      return new Float64Array(readNumbers("Uint16Array", { length, form: PLAIN, bytes: bytes.length }, bytes));
    if (bytes.length !== length) throw new RangeError("bytes are missing");
    return new Float64Array(bytes);
  }
  const array = { Float64Array, Uint32Array, Uint16Array }[type];
  if (form !== PLAIN || bytes.length !== length * array.BYTES_PER_ELEMENT) throw new RangeError("bytes are missing");
  if (LOW_BYTE_FIRST && bytes.byteOffset % array.BYTES_PER_ELEMENT === 0)
    return new array(bytes.buffer as ArrayBuffer, bytes.byteOffset, length);
  // A copy begins where its elements may.
  return new array(inHostOrder(new Uint8Array(bytes), array.BYTES_PER_ELEMENT).buffer as ArrayBuffer);
}

/** `null` if something in it is no count; −0 is none, since its sign would be lost. */
function countsIn(array: Float64Array): { readonly others: number; readonly greatest: number } | null {
  let [others, greatest] = [0, 0];
  // By index: iterators make an object for each number.
  for (let i = 0; i < array.length; i++) {
    const value = array[i]!;
    if (value === 0) {
      if (Object.is(value, -0)) return null;
      continue;
    }
    if (!(value > 0 && value <= MOST && Math.floor(value) === value)) return null;
    others += 1;
    if (value > greatest) greatest = value;
  }
  return { others, greatest };
}

function gapsOf(array: Numbers): Uint8Array {
  // At most five bytes an integer; fewer than a third of the numbers are written.
  const bytes = new Uint8Array(10 * (Math.ceil(array.length / 3) + 1));
  let at = 0;
  const write = (value: number): void => {
    for (; value >= 128; value = Math.floor(value / 128)) bytes[at++] = (value % 128) + 128;
    bytes[at++] = value;
  };
  let zeros = 0;
  for (let i = 0; i < array.length; i++) {
    const value = array[i]!;
    if (value === 0) zeros += 1;
    else {
      write(zeros);
      write(value);
      zeros = 0;
    }
  }
  return bytes.slice(0, at);
}

function fromGaps(bytes: Uint8Array, length: number): Float64Array {
  const array = new Float64Array(length);
  let at = 0;
  const read = (): number => {
    let [value, scale] = [0, 1];
    for (;;) {
      const byte = bytes[at++];
      if (byte === undefined || scale > MOST) throw new RangeError("a count does not end");
      value += (byte % 128) * scale;
      if (byte < 128) return value;
      scale *= 128;
    }
  };
  for (let place = 0; at < bytes.length; place++) {
    place += read();
    if (place >= length) throw new RangeError("counts lie beyond the array");
    array[place] = read();
  }
  return array;
}

const LOW_BYTE_FIRST = new Uint8Array(Uint16Array.of(1).buffer)[0] === 1;

const plainBytes = (array: Numbers): Uint8Array =>
  inHostOrder(
    LOW_BYTE_FIRST
      ? new Uint8Array(array.buffer, array.byteOffset, array.byteLength)
      : new Uint8Array(array.buffer, array.byteOffset, array.byteLength).slice(),
    array.BYTES_PER_ELEMENT,
  );

/** Turns each number's bytes about where the machine has the high byte first. */
function inHostOrder(bytes: Uint8Array, width: number): Uint8Array {
  if (!LOW_BYTE_FIRST) for (let i = 0; i < bytes.length; i += width) bytes.subarray(i, i + width).reverse();
  return bytes;
}
