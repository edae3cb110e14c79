import { zipSync } from "fflate";
import { Fault } from "../errors.ts";
import { entriesOf, unpack } from "../intake/zip.ts";
import type { Files } from "./bag.ts";

/** Largest dossier that is opened, packed and unpacked, and most files in it: all of it is held in memory. */
export const MOST_PACKED = 256 * 1024 * 1024;
const MOST_UNPACKED = 512 * 1024 * 1024;
const MOST_FILES = 2000;
const LONGEST_PATH = 1000;

/** The same files give the same bytes: no clock is asked. A ZIP file knows no time before 1980. */
const NO_TIME = new Date(1980, 0, 1);

/**
 * A bag as a ZIP file with one base directory, as RFC 8493, 4 asks of an archive.
 *
 * @param base name of that directory
 */
export const packBag = (base: string, files: Files): Uint8Array =>
  zipSync(Object.fromEntries(Array.from(files, ([path, bytes]) => [`${base}/${path}`, bytes])), {
    level: 6,
    mtime: NO_TIME,
  });

/** Whether bytes begin as a ZIP file does (APPNOTE 6.3.9, 4.3.7). */
export const isArchive = (bytes: Uint8Array): boolean =>
  bytes[0] === 0x50 && bytes[1] === 0x4b && bytes[2] === 3 && bytes[3] === 4;

/**
 * The files of a bag from its ZIP file. Nothing is written to a disk; sizes are those found by unpacking within a bound,
 * never those that the file states of itself.
 *
 * @param name how the file is called in a fault
 * @param most bytes that its files may have together
 * @throws {Fault} `bad-input`: no ZIP file, damaged, paths that lead elsewhere or come twice; `too-large`
 */
export function unpackBag(bytes: Uint8Array, name: string, most = MOST_UNPACKED): Files {
  const refused = (place: string, value: string, accepted: string): Fault =>
    new Fault("bad-input", `${name} is not a dossier that can be opened.`, [{ place, value, accepted }]);
  if (bytes.length > MOST_PACKED)
    throw new Fault("too-large", `${name} has ${bytes.length} bytes; expected at most ${MOST_PACKED}.`);
  const entries = entriesOf(Buffer.from(bytes.buffer, bytes.byteOffset, bytes.byteLength));
  if (entries === null) throw refused("", "no ZIP file, or one that is cut off", "a ZIP file that is whole");
  if (entries.length > MOST_FILES)
    throw new Fault("too-large", `${name} has ${entries.length} files; expected at most ${MOST_FILES}.`);
  const files = new Map<string, Uint8Array>();
  let left = most;
  let base: string | null = null;
  for (const entry of entries) {
    const { path } = entry;
    if (!isPlain(path))
      throw refused("a path in it", JSON.stringify(path.slice(0, 200)), "a path below the archive's one folder");
    const [first, ...rest] = path.split("/");
    base ??= first!;
    if (first !== base || rest.length === 0)
      throw refused("a path in it", JSON.stringify(path), `a path below the one folder ${JSON.stringify(base)}`);
    // A folder by itself.
    if (path.endsWith("/")) continue;
    const content = unpack(entry, left);
    if (content === "too large")
      throw new Fault("too-large", `${name} has more than ${most} bytes unpacked, which is the most.`);
    if (content === "damaged" || content.length !== entry.stated)
      throw refused(path, "data that cannot be unpacked", "a file that is whole");
    left -= content.length;
    const inside = rest.join("/");
    if (files.has(inside)) throw refused(path, "the same path twice", "every path once");
    files.set(inside, content);
  }
  return files;
}

/** A path that leads to a place below where it starts, on every system. */
const isPlain = (path: string): boolean =>
  path.length <= LONGEST_PATH &&
  !/[\\:\0\uFFFD]/.test(path) &&
  path
    .replace(/\/$/, "")
    .split("/")
    .every((part) => part !== "" && part !== "." && part !== "..");
