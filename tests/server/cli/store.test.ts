// The commands of a store, as a person would type them. Needs dist/.
import { existsSync, writeFileSync } from "node:fs";
import { join } from "node:path";
import { describe, expect, test } from "vitest";
import { openDatabase } from "../../../server/store/database.ts";
import { openStore } from "../../../server/store/open-store.ts";
import { startServing } from "../../campaign/serving.ts";
import { accepted, emptyFolder, finished } from "../store/sample.ts";
import { scratch, trialband } from "./trialband.ts";
import { LONG } from "../../setup/long.ts";

const files = scratch();

function aStore(): string {
  const folder = emptyFolder();
  const store = openStore({ folder });
  store.annotate(finished(store), "seen", 0);
  store.close();
  return folder;
}

describe("audit", () => {
  test("a sound store: exit 0 and the last digest, which --expect finds again", async () => {
    const folder = aStore();
    const { status, stdout } = await trialband("audit", "--store", folder);
    expect(status).toBe(0);
    expect(stdout).toMatch(
      /^4 entries, 1 records, 1 studies\. Last digest: [0-9a-f]{64}\nEverything is as the trail says\.\n$/,
    );
    const digest = /digest: (\w+)/.exec(stdout)![1]!;
    expect((await trialband("audit", "--store", folder, "--expect", digest)).status).toBe(0);
    expect((await trialband("audit", "--store", folder, "--expect", "0".repeat(64))).status).toBe(1);
  });

  test("an altered one: exit 1, and what is wrong", async () => {
    const folder = aStore();
    const database = openDatabase(join(folder, "trialband.db"));
    database.exec("UPDATE runs SET removed = '2026-01-01T00:00:00.000Z'");
    database.close();
    const { status, stderr } = await trialband("audit", "--store", folder);
    expect(status).toBe(1);
    expect(stderr).toMatch(/removed is true; expected false, as the trail says/);
    expect(JSON.parse((await trialband("audit", "--store", folder, "--json")).stdout)).toMatchObject({ entries: 4 });
  });

  test("who did what is printed, the last entries or all, and no name steers the terminal", async () => {
    const folder = emptyFolder();
    const store = openStore({ folder, now: () => new Date("2026-03-02T08:00:00.000Z") });
    const id = finished(store);
    store.annotate(id, "seen", 0, "Ada Lörrach");
    store.remove(id, "e\u001b[31mgon");
    store.bringBack(id, "token");
    store.close();
    const { stdout } = await trialband("audit", "--store", folder, "--entries", "4");
    const lines = stdout.split("\n");
    expect(lines[0]).toBe(`     3  2026-03-02T08:00:00.000Z  –                 run ended         ${id}`);
    expect(lines[1]).toBe(`     4  2026-03-02T08:00:00.000Z  Ada Lörrach       note written      ${id}`);
    expect(lines[2]).toMatch(/ {5}5 .*gon .*run removed /);
    expect(lines[2]).not.toContain("\u001b");
    expect(lines[3]).toMatch(/ {5}6 .* token {11} {2}run brought back/);
    expect(lines[4]).toMatch(/^6 entries, /);
    const json = JSON.parse((await trialband("audit", "--store", folder, "--entries", "99", "--json")).stdout) as {
      trail: { actor: string | null }[];
    };
    expect(json.trail.map(({ actor }) => actor)).toEqual([null, null, null, "Ada Lörrach", "e\u001b[31mgon", "token"]);
  });

  test("no store there: exit 2, and none is made", async () => {
    const folder = emptyFolder();
    expect(await trialband("audit", "--store", folder)).toMatchObject({
      status: 2,
      stderr: expect.stringContaining("There is no store in"),
    });
    expect(existsSync(join(folder, "trialband.db"))).toBe(false);
  });
});

test("backup and restore: a drill", async () => {
  const folder = aStore();
  const file = files.path("backup.db");
  expect(await trialband("backup", file, "--store", folder)).toMatchObject({
    status: 0,
    stdout: expect.stringMatching(/: 1 runs, \d+ bytes/),
  });
  expect(await trialband("backup", file, "--store", folder)).toMatchObject({
    status: 1,
    stderr: expect.stringContaining("exists already"),
  });
  const another = join(emptyFolder(), "new");
  expect(await trialband("restore", file, "--store", another)).toMatchObject({
    status: 0,
    stdout: expect.stringContaining("Restored 1 runs"),
  });
  expect((await trialband("audit", "--store", another)).status).toBe(0);
  const going = emptyFolder();
  const store = openStore({ folder: going });
  accepted(store);
  accepted(store);
  store.close();
  const half = files.path("half.db");
  await trialband("backup", half, "--store", going);
  const { stdout } = await trialband("restore", half, "--store", join(emptyFolder(), "new"));
  expect(stdout).toContain(
    "2 of them had not ended: they go on in a few seconds if a server uses this store now, and otherwise when one starts with it.",
  );
  writeFileSync(files.path("junk.db"), "junk");
  expect(await trialband("restore", files.path("junk.db"), "--store", another)).toMatchObject({
    status: 2,
    stderr: expect.stringContaining("no sound backup"),
  });
});

describe("while a server uses the store", () => {
  test(
    "backup, audit and restore work, and a second server is refused with the first one's address",
    LONG,
    async () => {
      const folder = aStore();
      const server = await startServing(folder);
      const titles = async (): Promise<number> =>
        ((await (await fetch(`${server.url}api/runs`)).json()) as unknown[]).length;
      try {
        const file = files.path("running.db");
        expect((await trialband("backup", file, "--store", folder)).status).toBe(0);
        const store = openStore({ folder });
        finished(store);
        store.close();
        expect(await titles()).toBe(2);
        const restored = await trialband("restore", file, "--store", folder);
        expect(restored).toMatchObject({ status: 0, stdout: expect.stringContaining("What was there is in") });
        expect(await titles()).toBe(1);
        expect((await trialband("audit", "--store", folder)).status).toBe(0);
        // A backup with a run that had not ended: the server goes on with it, without a restart.
        const elsewhere = emptyFolder();
        const other = openStore({ folder: elsewhere });
        const unfinished = accepted(other);
        other.close();
        const half = files.path("half-running.db");
        expect((await trialband("backup", half, "--store", elsewhere)).status).toBe(0);
        expect((await trialband("restore", half, "--store", folder)).status).toBe(0);
        const stateOf = async (): Promise<unknown> =>
          ((await (await fetch(`${server.url}api/runs/${unfinished}`)).json()) as { state: unknown }).state;
        await expect.poll(stateOf).toBe("finished");
        expect(await trialband("serve", "--store", folder, "--port", "0")).toMatchObject({
          status: 1,
          stderr: expect.stringContaining(
            `is in use by another server, at ${server.url} (process ${server.process.pid})`,
          ),
        });
      } finally {
        await server.stop();
      }
      // Stopped or killed, its place is free.
      const next = await startServing(folder);
      await next.kill();
      await (await startServing(folder)).stop();
    },
  );

  test("a store that is damaged is refused at the start", async () => {
    const folder = emptyFolder();
    writeFileSync(join(folder, "trialband.db"), "junk ".repeat(2000));
    expect(await trialband("serve", "--store", folder, "--port", "0")).toMatchObject({
      status: 1,
      stderr: expect.stringContaining("is not a store of Trialband"),
    });
  });
});
