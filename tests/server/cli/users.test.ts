// The commands that keep users and tokens, as a person would type them. Needs dist/.
import { spawnSync } from "node:child_process";
import { readdirSync, readFileSync, statSync } from "node:fs";
import { join } from "node:path";
import { PassThrough } from "node:stream";
import { describe, expect, test } from "vitest";
import { readUsers } from "../../../server/access/users-file.ts";
import { askPassword } from "../../../server/cli/ask-password.ts";
import { startServing } from "../../campaign/serving.ts";
import { cookieIn, PASSWORD, setUser } from "../access/people.ts";
import { emptyFolder } from "../store/sample.ts";
import { root, scratch, startTrialband, trialband } from "./trialband.ts";
import { LONG } from "../../setup/long.ts";

const files = scratch();
const piped = (input: string, ...args: string[]) =>
  spawnSync(process.execPath, [join(root, "bin.mjs"), "users", ...args], { cwd: root, encoding: "utf8", input });

describe("users", () => {
  test("are added, given another password, another role, listed and removed", async () => {
    const file = files.path("users.json");
    const added = piped(`${PASSWORD}\n`, "add", "Ada", "--users", file, "--role", "administer");
    expect(added).toMatchObject({ status: 0, stdout: "Ada can sign in with the role administer.\n", stderr: "" });
    expect(statSync(file).mode & 0o777).toBe(0o600);
    await setUser(file, "rosa", "read");
    expect((await trialband("users", "list", "--users", file)).stdout).toBe("administer Ada\nread       rosa\n");
    const before = readUsers(file)[0]!.password;
    expect(piped("another password\r\nmore", "password", "Ada", "--users", file).status).toBe(0);
    expect(readUsers(file)[0]!.password.hash).not.toBe(before.hash);
    expect(await trialband("users", "role", "rosa", "--role", "run", "--users", file)).toMatchObject({ status: 0 });
    expect(await trialband("users", "remove", "Ada", "--users", file)).toMatchObject({ status: 0 });
    expect(JSON.parse((await trialband("users", "list", "--users", file, "--json")).stdout)).toEqual([
      { name: "rosa", role: "run" },
    ]);
    for (const text of [readFileSync(file, "utf8"), added.stdout]) expect(text).not.toContain(PASSWORD);
    expect(readdirSync(files.path("."))).not.toContain("users.json.part");
  });

  test.each<[string, readonly string[], number, string]>([
    ["nobody's password", ["password", "nobody"], 2, "There is no user nobody."],
    ["nobody's removal", ["remove", "nobody"], 2, "There is no user nobody."],
    ["a name that is none", ["add", "<b>"], 2, "expected a name of 1 to 64 letters"],
    ["a role that is none", ["role", "ada", "--role", "owner"], 2, "Allowed choices are read, run, administer"],
  ])("%s: refused", async (_, args, status, words) => {
    const file = files.path("some.json");
    await setUser(file, "ada", "read");
    const answer = await trialband("users", ...args, "--users", file);
    expect(answer.status).toBe(status);
    expect(answer.stderr).toContain(words);
  });

  test("need a file to be named", async () => {
    const { status, stderr } = await trialband("users", "list");
    expect(status).toBe(2);
    expect(stderr).toContain("--users <file>");
  });
});

describe("a password typed at a terminal", () => {
  const typing = (text: string): Promise<string> => {
    const input = Object.assign(new PassThrough(), { isTTY: true, setRawMode: () => undefined });
    const asked = askPassword("ada", { input, output: new PassThrough() });
    input.write(text);
    return asked;
  };

  test("is asked for twice, and not shown", async () => {
    const file = files.path("typed.json");
    // Python's pty is a terminal as a person has it.
    const script = [
      "import pty, os, sys, time",
      "pid, fd = pty.fork()",
      "if pid == 0: os.execv(sys.argv[1], sys.argv[1:])",
      "seen = b''",
      "for _ in range(2):",
      "    while seen.count(b': ') <= _: seen += os.read(fd, 1000)",
      "    time.sleep(0.2)",
      "    os.write(fd, b'a password of mine\\r')",
      "try:",
      "    while True:",
      "        part = os.read(fd, 1000)",
      "        if not part: break",
      "        seen += part",
      "except OSError: pass",
      "_, status = os.waitpid(pid, 0)",
      "sys.stdout.buffer.write(seen); sys.exit(os.waitstatus_to_exitcode(status))",
    ].join("\n");
    const python = spawnSync(
      "python3",
      ["-c", script, process.execPath, join(root, "bin.mjs"), "users", "add", "ada", "--users", file],
      {
        encoding: "utf8",
      },
    );
    // A machine without Python has the other tests of this block.
    if (python.error !== undefined) return;
    expect(python.stdout.replaceAll("\r", "")).toBe(
      "Password of ada: \nThe same again: \nada can sign in with the role run.\n",
    );
    expect(python.status).toBe(0);
    expect(readUsers(file).map(({ name }) => name)).toEqual(["ada"]);
  });

  test("pasted twice in one piece is taken, mended letters and all", async () => {
    expect(await typing("a passrd\u007f\u007fword\ra password\r")).toBe("a password");
  });

  test("two that differ are refused", async () => {
    await expect(typing("one of them\ranother\r")).rejects.toMatchObject({
      problems: [{ place: "the password", value: "two that differ" }],
    });
  });

  test("Ctrl+C changes nothing", async () => {
    await expect(typing("half\u0003")).rejects.toMatchObject({ code: "cancelled" });
  });
});

test("a token is written once, for its owner alone, and is not printed", async () => {
  const file = files.path("token");
  const { stdout, status } = await trialband("token", file);
  const text = readFileSync(file, "utf8");
  expect(status).toBe(0);
  expect(text).toMatch(/^[\w-]{43}\n$/);
  expect(stdout).not.toContain(text.trim());
  expect(statSync(file).mode & 0o777).toBe(0o600);
  expect(await trialband("token", file)).toMatchObject({
    status: 1,
    stderr: expect.stringContaining("exists already"),
  });
});

describe("serve", () => {
  test.each<[string, readonly string[], string]>([
    ["nobody asked who they are", ["--host", "0.0.0.0", "--allow-host", "a.example", "--unencrypted"], "--users"],
    ["a certificate without its key", ["--certificate", "a.crt"], "--key: got nothing"],
    ["a key without its certificate", ["--key", "a.key"], "--certificate: got nothing"],
    ["no file of users", ["--users", "/nowhere/users.json"], "/nowhere/users.json cannot be read"],
    [
      "a proxy that is none",
      ["--public-origin", "https://a.example", "--proxy-address", "a.example"],
      "--proxy-address",
    ],
  ])("%s: refused before anything is opened", async (_, args, words) => {
    const folder = join(emptyFolder(), "none");
    const { status, stderr } = await trialband("serve", "--store", folder, "--port", "0", ...args);
    expect(status).toBe(2);
    expect(stderr).toContain(words);
  });

  test("no secret is in its command line, its log, or what it keeps", LONG, async () => {
    const folder = emptyFolder();
    const users = files.path("served.json");
    const token = files.path("served-token");
    await setUser(users, "ada", "administer");
    await trialband("token", token);
    const server = await startServing(folder, "--users", users, "--token-file", token, "--log", "info");
    let log = "";
    server.process.stderr!.on("data", (part: Buffer) => (log += part.toString("utf8")));
    const secret = readFileSync(token, "utf8").trim();
    let cookie = "";
    try {
      const form = (password: string): Promise<Response> =>
        fetch(`${server.url}sign-in`, {
          method: "POST",
          body: new URLSearchParams({ name: "ada", password }),
          redirect: "manual",
        });
      await form("a wrong password");
      cookie = cookieIn({ headers: { "set-cookie": (await form(PASSWORD)).headers.getSetCookie() } } as never);
      const ask = (headers: Record<string, string>, method = "GET"): Promise<Response> =>
        fetch(`${server.url}api/runs?token=${secret}`, {
          method,
          headers: { "content-type": "application/json", ...headers },
          ...(method === "POST"
            ? { body: JSON.stringify({ study: "published/additive-normal", trials: 10_000 }) }
            : {}),
        });
      expect((await ask({ authorization: `Bearer ${secret}` }, "POST")).status).toBe(202);
      expect((await ask({ authorization: `Bearer ${secret}x` })).status).toBe(401);
      expect((await ask({ cookie })).status).toBe(200);
      await expect.poll(() => log.split("\n").length).toBeGreaterThan(5);
      const line = spawnSync("ps", ["-o", "args=", "-p", String(server.process.pid)], { encoding: "utf8" }).stdout;
      if (line !== "") expect(line).not.toContain(secret);
    } finally {
      await server.stop();
    }
    const kept = readdirSync(folder).map((name) => readFileSync(join(folder, name), "latin1"));
    expect(kept.join("").length).toBeGreaterThan(10_000);
    for (const hidden of [secret, PASSWORD, "a wrong password", cookie.split("=")[1]!])
      for (const text of [log, ...kept]) expect(text).not.toContain(hidden);
    expect(startTrialband("audit", "--store", folder, "--entries", "3").stdout).toContain("  token  ");
  });
});
