/** Instructions of WebAssembly that models need, by their bytes (WebAssembly 2.0, 5.4). */
export const CODE = {
  block: [0x02, 0x40],
  loop: [0x03, 0x40],
  if: [0x04, 0x40],
  /** `if` that leaves a 32-bit integer, or a vector. */
  ifWhole: [0x04, 0x7f],
  ifVector: [0x04, 0x7b],
  else: [0x05],
  end: [0x0b],
  br: [0x0c],
  brIf: [0x0d],
  get: [0x20],
  set: [0x21],
  tee: [0x22],
  i32Const: [0x41],
  f64Const: [0x44],
  i32Eqz: [0x45],
  i32LessU: [0x49],
  i32GreaterU: [0x4b],
  i32GreaterEqualU: [0x4f],
  i32Add: [0x6a],
  i32And: [0x71],
  i32Or: [0x72],
  i32Shl: [0x74],
} as const satisfies Record<string, readonly number[]>;

/** Instructions on vectors, behind the prefix 0xfd. */
export const VECTOR = {
  load: 0x00,
  loadSplat64: 0x0a,
  store: 0x0b,
  const: 0x0c,
  shuffle: 0x0d,
  whole_extract: 0x1b,
  and: 0x4e,
  andnot: 0x4f,
  or: 0x50,
  xor: 0x51,
  not: 0x4d,
  bitselect: 0x52,
  anyTrue: 0x53,
  loadLane64: 0x57,
  storeLane64: 0x5b,
  loadZero64: 0x5d,
  eq: 0x47,
  ne: 0x48,
  lt: 0x49,
  gt: 0x4a,
  le: 0x4b,
  ge: 0x4c,
  ceil: 0x74,
  floor: 0x75,
  trunc: 0x7a,
  shl: 0xab,
  shr: 0xac,
  shru: 0xad,
  plus: 0xae,
  minus: 0xb1,
  allTrue64: 0xc3,
  bits64: 0xc4,
  same: 0xd6,
  abs: 0xec,
  neg: 0xed,
  sqrt: 0xef,
  add: 0xf0,
  sub: 0xf1,
  mul: 0xf2,
  div: 0xf3,
  min: 0xf4,
  max: 0xf5,
  toSigned: 0xfc,
  toUnsigned: 0xfd,
  fromSigned: 0xfe,
  fromUnsigned: 0xff,
} as const;

/** A whole number in LEB128, unsigned. */
export function unsigned(value: number): number[] {
  const bytes: number[] = [];
  let left = value;
  do {
    const low = left % 128;
    left = Math.floor(left / 128);
    bytes.push(left > 0 ? low | 128 : low);
  } while (left > 0);
  return bytes;
}

/** A 32-bit integer in LEB128, signed. */
export function signed(value: number): number[] {
  const bytes: number[] = [];
  let left = value | 0;
  for (;;) {
    const low = left & 127;
    left >>= 7;
    const last = (left === 0 && (low & 64) === 0) || (left === -1 && (low & 64) !== 0);
    bytes.push(last ? low : low | 128);
    if (last) return bytes;
  }
}

/** The eight bytes of a double. */
export const doubleBytes = (value: number): number[] => {
  const view = new DataView(new ArrayBuffer(8));
  view.setFloat64(0, value, true);
  return Array.from(new Uint8Array(view.buffer));
};

/** A list, preceded by its length. */
export const list = (items: readonly (readonly number[])[]): number[] => [...unsigned(items.length), ...items.flat()];

/** A section of a module. */
export function section(id: number, content: readonly number[]): number[] {
  return [id, ...unsigned(content.length), ...content];
}

/** Characters of ASCII as a name. */
export const asciiName = (text: string): number[] => [
  ...unsigned(text.length),
  ...[...text].map((c) => c.charCodeAt(0)),
];
