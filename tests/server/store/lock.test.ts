import { spawn } from "node:child_process";
import { existsSync, writeFileSync } from "node:fs";
import { createRequire } from "node:module";
import { join } from "node:path";
import { expect, test } from "vitest";
import { takeLock } from "../../../server/store/lock.ts";
import { emptyFolder } from "./sample.ts";

test("a second server is refused with the first one's address", () => {
  const folder = emptyFolder();
  const first = takeLock(folder);
  expect(() => takeLock(folder)).toThrow(
    expect.objectContaining({ code: "store-in-use", message: expect.stringContaining("which is starting") }),
  );
  first.publish("http://127.0.0.1:8417/");
  expect(() => takeLock(folder)).toThrow(
    expect.objectContaining({
      code: "store-in-use",
      message: expect.stringContaining(`at http://127.0.0.1:8417/ (process ${process.pid})`),
    }),
  );
  for (const [content, words] of [
    ['{"address":', "is not JSON (line 1, column 12)"],
    ["null", "holds no address and process"],
    ['{"address":1}', "holds no address and process"],
  ] as const) {
    writeFileSync(join(folder, "server.json"), content);
    expect(() => takeLock(folder)).toThrow(`Where it listens cannot be read: ${join(folder, "server.json")} ${words}`);
  }
  first.release();
  const second = takeLock(folder);
  second.release();
  expect(existsSync(join(folder, "server.json"))).toBe(false);
});

test("the lock of a process that was killed is free, and its address is forgotten", async () => {
  const folder = emptyFolder();
  const library = createRequire(import.meta.url).resolve("libsql");
  const script = `
    const Database = require(${JSON.stringify(library)});
    const database = new Database(${JSON.stringify(join(folder, "server.lock"))});
    database.exec("BEGIN EXCLUSIVE");
    process.stdout.write("held");
    setInterval(() => undefined, 1000);`;
  const child = spawn(process.execPath, ["-e", script], { stdio: ["ignore", "pipe", "inherit"] });
  await new Promise((resolve) => child.stdout.once("data", resolve));
  writeFileSync(join(folder, "server.json"), '{"address":"http://127.0.0.1:1/","process":1}');
  expect(() => takeLock(folder)).toThrow(/at http:\/\/127\.0\.0\.1:1\//);
  const ended = new Promise((resolve) => child.once("exit", resolve));
  child.kill("SIGKILL");
  await ended;
  const lock = takeLock(folder);
  expect(existsSync(join(folder, "server.json"))).toBe(false);
  lock.release();
});
