import { createHash } from "node:crypto";

/** Files by path from the base directory of a bag, with slashes. */
export type Files = ReadonlyMap<string, Uint8Array>;

/** BagIt 1.0, RFC 8493, 2.1.1: these two lines and no other. */
const DECLARATION = "BagIt-Version: 1.0\nTag-File-Character-Encoding: UTF-8\n";
const PAYLOAD = "data/";
const MANIFEST = "manifest-sha256.txt";
const TAG_MANIFEST = "tagmanifest-sha256.txt";
const INFO = "bag-info.txt";
const OXUM = "Payload-Oxum";

/** What is not as a bag says it is. */
export interface BagProblem {
  readonly path: string;
  readonly found: string;
  readonly expected: string;
}

const sha256 = (bytes: Uint8Array): string => createHash("sha256").update(bytes).digest("hex");
const bytesOf = (text: string): Uint8Array => new TextEncoder().encode(text);

/** A line feed, carriage return or per cent sign in a path, RFC 8493, 2.1.3. */
const inManifest = (path: string): string =>
  path.replace(/[%\r\n]/g, (character) => `%${character.codePointAt(0)!.toString(16).padStart(2, "0").toUpperCase()}`);
const fromManifest = (path: string): string =>
  path.replace(/%(0A|0D|25)/gi, (_, code: string) => String.fromCodePoint(Number.parseInt(code, 16)));

const manifestOf = (files: Iterable<readonly [string, Uint8Array]>): string =>
  Array.from(files, ([path, bytes]) => `${sha256(bytes)}  ${inManifest(path)}\n`)
    .toSorted()
    .join("");

/** Bytes and files of the payload, RFC 8493, 2.2.2. */
const oxumOf = (payload: Files): string =>
  `${[...payload.values()].reduce((sum, { length }) => sum + length, 0)}.${payload.size}`;

/**
 * A bag of these files (RFC 8493).
 *
 * @param payload paths below `data/`
 * @param info labels and texts of bag-info.txt
 */
export function makeBag(payload: Files, info: readonly (readonly [label: string, text: string])[]): Files {
  const data = new Map(Array.from(payload, ([path, bytes]) => [`${PAYLOAD}${path}`, bytes] as const));
  const described = [...info, [OXUM, oxumOf(data)] as const];
  const tags = new Map([
    ["bagit.txt", bytesOf(DECLARATION)],
    [INFO, bytesOf(described.map(([label, text]) => `${label}: ${text.replace(/\s+/g, " ")}\n`).join(""))],
    [MANIFEST, bytesOf(manifestOf(data))],
  ]);
  return new Map([...tags, [TAG_MANIFEST, bytesOf(manifestOf(tags))], ...data]);
}

/** The payload of a bag: paths below `data/`. */
export const payloadOf = (files: Files): Files =>
  new Map(
    Array.from(files)
      .filter(([path]) => path.startsWith(PAYLOAD))
      .map(([path, bytes]) => [path.slice(PAYLOAD.length), bytes]),
  );

/**
 * Everything that is not as the bag's own manifests say: a file altered, added or left out, of the payload and of the tags.
 * Stricter than RFC 8493, which allows tag files that no manifest names.
 */
export function bagProblems(files: Files): readonly BagProblem[] {
  const problems: BagProblem[] = [];
  const add = (path: string, found: string, expected: string): void => void problems.push({ path, found, expected });
  const text = (path: string): string | null => {
    const bytes = files.get(path);
    if (bytes === undefined) {
      add(path, "no such file", "a file that every dossier has");
      return null;
    }
    try {
      return new TextDecoder("utf-8", { fatal: true, ignoreBOM: true }).decode(bytes);
    } catch {
      add(path, "bytes that are no UTF-8", "text in UTF-8");
      return null;
    }
  };
  const declared = text("bagit.txt");
  if (declared !== null && declared !== DECLARATION) add("bagit.txt", "another text", "BagIt 1.0, in UTF-8");
  const tags = new Map([...files].filter(([path]) => !path.startsWith(PAYLOAD) && path !== TAG_MANIFEST));
  const payload = new Map([...files].filter(([path]) => path.startsWith(PAYLOAD)));
  compare(text(MANIFEST), payload, MANIFEST);
  compare(text(TAG_MANIFEST), tags, TAG_MANIFEST);
  const oxum = new RegExp(`^${OXUM}: (\\d+\\.\\d+)$`, "m").exec(text(INFO) ?? "")?.[1];
  if (oxum !== oxumOf(payload)) add(INFO, `${OXUM} ${oxum ?? "missing"}`, `${OXUM} ${oxumOf(payload)}`);
  return problems;

  function compare(manifest: string | null, of: Files, name: string): void {
    if (manifest === null) return;
    const listed = new Map<string, string>();
    for (const line of manifest.split("\n").filter((one) => one !== "")) {
      const [, digest, path] = /^([0-9a-f]{64}) [ *](.+)$/.exec(line) ?? [];
      if (digest === undefined) add(name, line.slice(0, 80), "a digest of 64 digits, two spaces and a path");
      else if (listed.has(fromManifest(path!))) add(name, `${path!} twice`, "every file once");
      else listed.set(fromManifest(path!), digest);
    }
    for (const [path, bytes] of of) {
      const digest = listed.get(path);
      if (digest === undefined) add(path, "a file that was added", `a file that ${name} lists`);
      else if (sha256(bytes) !== digest) add(path, `the digest ${sha256(bytes)}`, digest);
    }
    for (const path of listed.keys()) if (!of.has(path)) add(path, "no such file", `the file that ${name} lists`);
  }
}
