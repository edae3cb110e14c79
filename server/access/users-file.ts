import { closeSync, existsSync, fsyncSync, openSync, renameSync, rmSync, statSync, writeSync } from "node:fs";
import { z } from "zod";
import { ROLES, type Role } from "../../viewer/api/access.ts";
import { Fault, refused } from "../errors.ts";
import { parseJson } from "../intake/json.ts";
import { isCost, type HashedPassword } from "./password.ts";
import { readSecretFile } from "./secret-file.ts";

export interface User {
  readonly name: string;
  readonly role: Role;
  readonly password: HashedPassword;
}

const FORMAT = "trialband-users/1";
const WHAT = "the file of users";
/** What the audit trail calls the program that has the token: no person may have its name. */
export const TOKEN_NAME = "token";

const NAME = /^[\p{L}\p{N}](?:[\p{L}\p{M}\p{N} ._@-]{0,62}[\p{L}\p{M}\p{N}])?$/u;
const ACCEPTED_NAME = `a name of 1 to 64 letters, digits, spaces and . _ @ -, which begins and ends with a letter or digit and is not ${TOKEN_NAME}`;

/** One spelling of a name, however it was typed. */
export const spelled = (name: string): string => name.normalize("NFC").trim();

/** @throws {Fault} `bad-input` */
export function requireName(name: string): string {
  const one = spelled(name);
  if (!isName(one)) throw refused("name", name, ACCEPTED_NAME);
  return one;
}

const isName = (name: string): boolean => NAME.test(name) && name.toLowerCase() !== TOKEN_NAME;

const whole = z.int("a whole number").min(1, "a whole number from 1");
const bytes = (length: number) =>
  z.string().refine((text) => Buffer.from(text, "base64").length >= length, `at least ${length} bytes in Base64`);
const schema = z.strictObject(
  {
    format: z.literal(FORMAT, FORMAT),
    users: z
      .array(
        z.strictObject({
          name: z.string(ACCEPTED_NAME).refine(isName, ACCEPTED_NAME),
          role: z.enum(ROLES, `one of ${ROLES.join(", ")}`),
          password: z.strictObject({
            scrypt: z
              .strictObject({ N: whole, r: whole, p: whole })
              .refine(isCost, "parameters of scrypt that take at most 256 MiB"),
            salt: bytes(16),
            hash: bytes(32).refine((text) => Buffer.from(text, "base64").length === 32, "32 bytes in Base64"),
          }),
        }),
        "a list of users",
      )
      .refine((users) => new Set(users.map(({ name }) => name.toLowerCase())).size === users.length, "each name once"),
  },
  "an object with format and users",
);

/**
 * The users of a file.
 *
 * @throws {Fault} `no-such-file`; `not-json`; `bad-input`: rights that let others read it, or what is wrong in it, never
 *   with a hash
 */
export function readUsers(path: string): readonly User[] {
  const parsed = schema.safeParse(parseJson(readSecretFile(path, WHAT), path));
  if (parsed.success) return parsed.data.users;
  throw new Fault(
    "bad-input",
    `${path} is no file of users that can be used.`,
    parsed.error.issues.map(({ path: place, message }) => ({
      place: place.join("."),
      value: "what stands there",
      accepted: message,
    })),
  );
}

/** The users of a file that may not be there yet. */
export const readOrNone = (path: string): readonly User[] => (existsSync(path) ? readUsers(path) : []);

/**
 * Changes a file of users: beside its place, synced, then renamed into it, for its owner alone.
 *
 * @throws {Fault} `cannot-write`: it cannot be written, or another command changes it
 */
export function changeUsers(path: string, change: (users: readonly User[]) => readonly User[]): void {
  const part = `${path}.part`;
  let descriptor: number;
  try {
    // Whoever changes it makes this file first: two changes at once cannot undo each other.
    descriptor = openSync(part, "wx", 0o600);
  } catch (error) {
    const { code, message } = error as NodeJS.ErrnoException;
    throw new Fault(
      "cannot-write",
      code === "EEXIST"
        ? `${path} is being changed by another command. If none is at work, one was cut short: remove ${part}.`
        : `${path} cannot be written: ${message}`,
    );
  }
  try {
    const users = change(readOrNone(path)).toSorted((a, b) => (a.name < b.name ? -1 : 1));
    writeSync(descriptor, `${JSON.stringify({ format: FORMAT, users }, null, 2)}\n`);
    fsyncSync(descriptor);
    renameSync(part, path);
  } finally {
    closeSync(descriptor);
    rmSync(part, { force: true });
  }
}

/** The users of a file as it is now: a change is seen by the next request, without a restart. */
export interface CurrentUsers {
  /** @throws {Fault} `busy`: the file can no longer be used; nobody is known then */
  all(): readonly User[];
}

/**
 * @param warn told once of each state of the file that cannot be used
 * @throws {Fault} as `readUsers`, and `bad-input` for a file without users
 */
export function currentUsers(path: string, warn: (message: string) => void): CurrentUsers {
  let stamp = stampOf(path);
  let users: readonly User[] | null = readUsers(path);
  if (users.length === 0)
    throw new Fault("bad-input", `${path} has no users; add one with trialband users add NAME --users ${path}`);
  return {
    all() {
      const now = stampOf(path);
      if (now !== stamp) {
        stamp = now;
        try {
          users = readUsers(path);
        } catch (error) {
          users = null;
          warn(`Nobody can sign in: ${error instanceof Error ? error.message : String(error)}`);
        }
      }
      if (users === null)
        throw new Fault("busy", "The server's file of users cannot be used: nobody can sign in until it is mended.");
      return users;
    },
  };
}

function stampOf(path: string): string {
  try {
    const { ino, size, mtimeMs, ctimeMs } = statSync(path);
    return `${ino}/${size}/${mtimeMs}/${ctimeMs}`;
  } catch {
    return "none";
  }
}
