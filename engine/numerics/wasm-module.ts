/** Present in every host, but declared by none of TypeScript's libraries without a DOM. */
declare const WebAssembly:
  | {
      readonly Module: new (bytes: Uint8Array) => object;
      readonly Instance: new (module: object) => { readonly exports: unknown };
    }
  | undefined;

/** A memory of WebAssembly, in which modules share numbers with plain code. */
export interface WasmMemory {
  readonly buffer: ArrayBuffer;
  /** By pages of 65 536 bytes; views of the buffer end with it. */
  grow(pages: number): number;
}

/**
 * What a module that stands on nothing exports.
 *
 * @param bytes in hexadecimal
 * @returns `null` if the host has no WebAssembly with SIMD, or forbids it (a page's content security policy)
 */
export function wasmExports(bytes: string): unknown {
  if (typeof WebAssembly === "undefined") return null;
  try {
    const binary = Uint8Array.from({ length: bytes.length / 2 }, (_, i) => parseInt(bytes.slice(2 * i, 2 * i + 2), 16));
    return new WebAssembly.Instance(new WebAssembly.Module(binary)).exports;
  } catch {
    return null;
  }
}
