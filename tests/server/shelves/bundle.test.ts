import { mkdirSync, rmSync, statSync, writeFileSync } from "node:fs";
import { tmpdir, userInfo } from "node:os";
import { dirname, join } from "node:path";
import { fileURLToPath } from "node:url";
import { createHash } from "node:crypto";
import { afterAll, expect, test } from "vitest";
import { placeModule } from "../../../server/shelves/bundle.ts";

const text = "export default 1;\n";
const digest = createHash("sha256").update(text).digest("hex");
/** A folder of a name that anyone can foresee, made beforehand by someone else. */
const foreseen = join(tmpdir(), `trialband-${userInfo().uid}`);
afterAll(() => rmSync(join(foreseen, `${digest}.mjs`), { force: true }));

test("a module lies in a folder of this process alone, which nobody can make beforehand", async () => {
  mkdirSync(foreseen, { recursive: true });
  writeFileSync(join(foreseen, `${digest}.mjs`), "throw new Error('code of another user');\n");
  const { url } = await placeModule(text);
  const folder = dirname(fileURLToPath(url));
  expect(folder).not.toBe(foreseen);
  expect(statSync(folder).mode & 0o777).toBe(0o700);
  expect(statSync(folder).uid).toBe(userInfo().uid);
  expect(((await import(/* @vite-ignore */ url)) as { default: unknown }).default).toBe(1);
});
