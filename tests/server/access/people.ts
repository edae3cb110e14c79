import { mkdtempSync, rmSync, writeFileSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import type { Express } from "express";
import request from "supertest";
import { openAccess, type Access } from "../../../server/access/access.ts";
import { hashPassword, type Cost } from "../../../server/access/password.ts";
import { openSessions, type SessionTimes } from "../../../server/access/sessions.ts";
import { changeUsers, currentUsers } from "../../../server/access/users-file.ts";
import { createApp, type AppOptions } from "../../../server/app.ts";
import { Runs } from "../../../server/runs/runs.ts";
import { studyShelf } from "../../../server/shelves/studies.ts";
import { openStore } from "../../../server/store/open-store.ts";
import { ROLES, type Role } from "../../../viewer/api/access.ts";
import { emptyFolder } from "../store/sample.ts";

/** Cheap, so that a test of who may do what does not wait for it. */
export const CHEAP: Cost = { N: 2, r: 8, p: 1 };
export const TOKEN = "a-token-for-tests-of-43-characters-in-all-xx";
export const PASSWORD = "copper kettle, quiet bath";
/** One person for each role. */
export const PEOPLE = { rosa: "read", egon: "run", ada: "administer" } as const satisfies Record<string, Role>;
export const nameOf = (role: Role): string => Object.keys(PEOPLE)[ROLES.indexOf(role)]!;

/** Gives someone a password, whether the file has them or not. */
export async function setUser(
  file: string,
  name: string,
  role: Role,
  password = PASSWORD,
  cost = CHEAP,
): Promise<void> {
  const hashed = await hashPassword(password, cost);
  changeUsers(file, (all) => [...all.filter((user) => user.name !== name), { name, role, password: hashed }]);
}

export async function usersFile(cost = CHEAP): Promise<string> {
  const file = join(emptyFolder(), "users.json");
  for (const [name, role] of Object.entries(PEOPLE)) await setUser(file, name, role, PASSWORD, cost);
  return file;
}

export interface Guarded {
  readonly app: Express;
  readonly file: string;
  readonly runs: Runs;
  readonly access: Access;
  /** Moves the clock of the sessions. */
  pass(ms: number): void;
  /** The cookie of a new session. */
  cookieOf(role: Role): Promise<string>;
}

/** An app that asks people who they are, in memory. Needs dist/. */
export async function guardedApp(
  more: Partial<AppOptions> & {
    readonly times?: SessionTimes;
    readonly secure?: boolean;
    readonly cost?: Cost;
    readonly warn?: (message: string) => void;
  } = {},
): Promise<Guarded> {
  const { times, secure = false, cost, warn = () => undefined, ...options } = more;
  const file = await usersFile(cost);
  let now = 0;
  const access = openAccess({
    users: currentUsers(file, warn),
    token: { text: TOKEN, role: "run" },
    secure,
    sessions: openSessions(times, () => now),
  });
  const runs = new Runs(() => Promise.reject(new Error("not wanted here")), openStore({ folder: null }));
  const root = join(import.meta.dirname, "../../..");
  const app = createApp({
    runs,
    shelf: studyShelf(join(root, "examples")),
    workers: 1,
    page: join(root, "dist/viewer"),
    hosts: null,
    access,
    health: async () => ({ ok: true, parts: { store: PART, pool: PART, disk: PART } }),
    ...options,
  });
  return {
    app,
    file,
    runs,
    access,
    pass: (ms) => void (now += ms),
    cookieOf: async (role) => cookieIn(await signIn(app, nameOf(role), PASSWORD)),
  };
}

const PART = { ok: true, found: "fine" };

export const signIn = (app: Express, name: string, password: string): request.Test =>
  request(app).post("/sign-in").type("form").send({ name, password });

/** The cookie that an answer sets, as a browser sends it back. */
export const cookieIn = ({ headers }: request.Response): string =>
  String((headers["set-cookie"] as unknown as string[] | undefined)?.[0] ?? "").split(";")[0]!;

/** A folder of its own for files with secrets. */
export function secretFolder(): {
  readonly path: (name: string) => string;
  write(name: string, text: string, mode?: number): string;
  drop(): void;
} {
  const folder = mkdtempSync(join(tmpdir(), "trialband-access-"));
  return {
    path: (name) => join(folder, name),
    write(name, text, mode = 0o600) {
      writeFileSync(join(folder, name), text, { mode });
      return join(folder, name);
    },
    drop: () => rmSync(folder, { recursive: true }),
  };
}
