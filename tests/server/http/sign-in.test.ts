import { createServer, get, type IncomingMessage } from "node:http";
import type { AddressInfo } from "node:net";
import { renameSync, writeFileSync } from "node:fs";
import request from "supertest";
import { beforeAll, describe, expect, test } from "vitest";
import { changeUsers } from "../../../server/access/users-file.ts";
import { cookieIn, guardedApp, PASSWORD, setUser, signIn, TOKEN, type Guarded } from "../access/people.ts";
import { openAccess } from "../../../server/access/access.ts";

let it: Guarded;
beforeAll(async () => {
  it = await guardedApp();
});

const sessionOf = (app: Guarded["app"], cookie: string): request.Test =>
  request(app).get("/api/session").set("cookie", cookie);

describe("a person signs in", () => {
  test("with name and password, is led to the page, and is known from then on", async () => {
    const answer = await signIn(it.app, "ada", PASSWORD);
    expect({ status: answer.status, to: answer.headers["location"] }).toEqual({ status: 303, to: "/" });
    // RFC 6265bis, 5.5: what keeps scripts, other sites and other paths from it; 256 bits in Base64 are 43 characters.
    expect(answer.headers["set-cookie"]).toEqual([
      expect.stringMatching(/^trialband-session=[\w-]{43}; Path=\/; HttpOnly; SameSite=Strict$/),
    ]);
    expect((await sessionOf(it.app, cookieIn(answer))).body).toEqual({
      name: "ada",
      role: "administer",
      by: "sign-in",
    });
    // The page of the sign-in leads on who has signed in.
    expect((await request(it.app).get("/sign-in").set("cookie", cookieIn(answer))).headers["location"]).toBe("/");
  });

  test("over TLS the cookie goes over TLS alone, and is bound to this host", async () => {
    const secure = await guardedApp({ secure: true });
    const answer = await signIn(secure.app, "ada", PASSWORD);
    expect(answer.headers["set-cookie"]).toEqual([
      expect.stringMatching(/^__Host-trialband-session=[\w-]{43}; Path=\/; HttpOnly; Secure; SameSite=Strict$/),
    ]);
    const value = cookieIn(answer).split("=")[1]!;
    expect((await sessionOf(secure.app, `trialband-session=${value}`)).status).toBe(401);
  });

  test.each([
    ["ada", "copper kettle, quiet bath ", "a wrong password"],
    ["nobody", PASSWORD, "a name that nobody has"],
    ["", "", "nothing"],
    ["ADA", PASSWORD, "a name of other letters"],
    ["constructor", PASSWORD, "a name that every object has"],
    ["ada\0", PASSWORD, "a NUL"],
  ])("%j with %j is refused alike: %s", async (name, password) => {
    const fresh = await guardedApp();
    const answer = await signIn(fresh.app, name, password);
    expect(answer.status).toBe(401);
    expect(answer.headers["set-cookie"]).toBeUndefined();
    expect(answer.text).toContain("The name or the password is wrong.");
    expect(answer.text).not.toContain(PASSWORD);
  });

  test("what was typed as the name comes back as text, never as part of the page", async () => {
    const { text } = await signIn(it.app, `"><script>alert(1)</script>$&`, "x");
    expect(text).toContain('value="&quot;&gt;&lt;script&gt;alert(1)&lt;/script&gt;$&amp;"');
    expect(text).not.toContain("<script");
  });

  test("a name that nobody has takes as long as a wrong password", async () => {
    const slow = await guardedApp({ cost: { N: 2 ** 12, r: 8, p: 1 } });
    // Processor time, since other work on the machine stretches the clock's; in turn, and the least of several.
    const least = { ada: Infinity, nobody: Infinity };
    for (let i = 0; i < 7; i++) {
      for (const name of ["ada", "nobody"] as const) {
        const before = process.cpuUsage();
        await slow.access.signIn(name, "not the one");
        const { user, system } = process.cpuUsage(before);
        least[name] = Math.min(least[name], user + system);
      }
    }
    // Without the stand-in it would take a hundredth of the time.
    expect(least.nobody / least.ada).toBeGreaterThan(0.4);
    expect(least.nobody / least.ada).toBeLessThan(2.5);
  });
});

describe("what another page has a browser send is refused", () => {
  const send = (headers: Record<string, string>): request.Test => signIn(it.app, "ada", PASSWORD).set(headers);
  test.each<[string, Record<string, string>, number]>([
    ["the own page", { host: "a.example", origin: "http://a.example", "sec-fetch-site": "same-origin" }, 303],
    ["another site", { "sec-fetch-site": "cross-site" }, 403],
    ["another origin", { host: "a.example", origin: "http://b.example" }, 403],
    ["an origin that may not be known", { origin: "null" }, 403],
    ["another scheme", { host: "a.example", origin: "https://a.example" }, 403],
  ])("%s", async (_, headers, status) => {
    const answer = await send(headers);
    expect(answer.status).toBe(status);
    expect(answer.headers["set-cookie"] !== undefined).toBe(status === 303);
  });

  test("the page's answer lets its form say where it comes from", async () => {
    // Fetch, 4.5 (append a request Origin header): a policy of no-referrer has a form send null.
    expect((await request(it.app).get("/sign-in")).headers["referrer-policy"]).toBe("same-origin");
  });

  test.each(["application/json", "text/plain", "multipart/form-data; boundary=x"])("a sign-in as %s", async (type) => {
    const answer = await request(it.app)
      .post("/sign-in")
      .set("content-type", type)
      .serialize((body: unknown) => body as string)
      .send("{}");
    expect(answer.status).toBe(415);
  });

  test("a form of more than 4 kB, or with names twice", async () => {
    expect((await signIn(it.app, "x".repeat(5000), PASSWORD)).status).toBe(413);
    const twice = await request(it.app).post("/sign-in").type("form").send(`name=ada&name=ada&password=${PASSWORD}`);
    expect(twice.status).toBe(401);
  });
});

describe("a session", () => {
  test("of an id that the form brought is never begun: a new one has a new id, and the old one ends", async () => {
    const planted = "trialband-session=chosen-by-somebody-else-chosen-by-somebody-";
    const first = cookieIn(await signIn(it.app, "ada", PASSWORD).set("cookie", planted));
    expect(first).not.toBe(planted);
    expect((await sessionOf(it.app, planted)).status).toBe(401);
    const second = cookieIn(await signIn(it.app, "rosa", PASSWORD).set("cookie", first));
    expect((await sessionOf(it.app, first)).status).toBe(401);
    expect((await sessionOf(it.app, second)).body).toMatchObject({ name: "rosa" });
  });

  test("two cookies of its name are none: one of them was planted", async () => {
    const cookie = await it.cookieOf("administer");
    expect((await sessionOf(it.app, `${cookie}; ${cookie}`)).status).toBe(401);
    expect((await sessionOf(it.app, `trialband-session=x; ${cookie}`)).status).toBe(401);
    expect((await sessionOf(it.app, `other=x; ${cookie}; another=y`)).status).toBe(200);
  });

  test("ends with the sign-out, which takes the cookie away", async () => {
    const cookie = await it.cookieOf("read");
    const answer = await request(it.app).delete("/api/session").set("cookie", cookie);
    expect(answer.status).toBe(204);
    expect(answer.headers["set-cookie"]).toEqual([
      expect.stringContaining("trialband-session=; Path=/; Expires=Thu, 01 Jan 1970"),
    ]);
    expect((await sessionOf(it.app, cookie)).status).toBe(401);
  });

  test("ends when nothing was asked for a while, and after its whole time whatever was asked", async () => {
    const timed = await guardedApp({ times: { idle: 100, whole: 1000 } });
    const cookie = await timed.cookieOf("read");
    for (let at = 0; at < 990; at += 90) {
      expect((await sessionOf(timed.app, cookie)).status, String(at)).toBe(200);
      timed.pass(90);
    }
    expect((await sessionOf(timed.app, cookie)).status).toBe(200);
    timed.pass(10);
    expect((await sessionOf(timed.app, cookie)).status).toBe(401);
    const idle = await timed.cookieOf("read");
    timed.pass(100);
    expect((await sessionOf(timed.app, idle)).status).toBe(401);
  });

  test("ends with another password and with the person's removal; another role holds at once", async () => {
    const own = await guardedApp();
    const [ada, egon, rosa] = [await own.cookieOf("administer"), await own.cookieOf("run"), await own.cookieOf("read")];
    await setUser(own.file, "egon", "read");
    expect((await sessionOf(own.app, egon)).status).toBe(401);
    changeUsers(own.file, (all) => all.map((user) => (user.name === "rosa" ? { ...user, role: "administer" } : user)));
    expect((await sessionOf(own.app, rosa)).body).toMatchObject({ role: "administer" });
    changeUsers(own.file, (all) => all.filter(({ name }) => name !== "ada"));
    expect((await sessionOf(own.app, ada)).status).toBe(401);
    // Back with the same name, the old session stays ended.
    await setUser(own.file, "ada", "administer");
    expect((await sessionOf(own.app, ada)).status).toBe(401);
  });

  test("stands still while the file of users cannot be used: nobody is let in, and who keeps the server is told", async () => {
    const warned: string[] = [];
    const own = await guardedApp({ warn: (message) => warned.push(message) });
    const cookie = await own.cookieOf("administer");
    renameSync(own.file, `${own.file}.aside`);
    writeFileSync(own.file, "{", { mode: 0o600 });
    for (const ask of [() => sessionOf(own.app, cookie), () => signIn(own.app, "ada", PASSWORD)]) {
      const answer = await ask();
      expect(answer.status).toBe(503);
      expect(answer.text).not.toContain(own.file);
    }
    expect(warned).toEqual([expect.stringContaining(`${own.file} is not JSON (line 1`)]);
    renameSync(`${own.file}.aside`, own.file);
    expect((await sessionOf(own.app, cookie)).status).toBe(200);
  });
});

test("a stream of events ends with the session that reads it", async () => {
  const own = await guardedApp();
  const run = { id: "one", state: "running", trials: 0, limit: 10 } as never;
  const follow = (_id: string, follower: (event: object) => void): (() => void) => {
    follower({ type: "progress", trials: 0, limit: 10 });
    return () => undefined;
  };
  Object.assign(own.runs, { get: () => run, follow });
  const server = createServer(own.app);
  await new Promise<void>((resolve) => server.listen(0, "127.0.0.1", resolve));
  const { port } = server.address() as AddressInfo;
  const read = (cookie: string): Promise<{ readonly ended: Promise<void> }> =>
    new Promise((resolve, reject) => {
      const asked = get({ port, path: "/api/runs/one/events", headers: { cookie } }, (response: IncomingMessage) => {
        const ended = new Promise<void>((done) => response.on("close", done));
        response.on("error", () => undefined).resume();
        resolve({ ended });
      });
      asked.on("error", reject);
    });
  const [gone, stays] = [await own.cookieOf("read"), await own.cookieOf("read")];
  const [cut, other] = [await read(gone), await read(stays)];
  await request(server).delete("/api/session").set("cookie", gone);
  await cut.ended;
  let otherEnded = false;
  void other.ended.then(() => (otherEnded = true));
  expect((await sessionOf(own.app, stays)).status).toBe(200);
  expect(otherEnded).toBe(false);
  server.closeAllConnections();
  await new Promise((resolve) => server.close(resolve));
});

describe("failed sign-ins are limited", () => {
  const limits = { byAddress: 5, byName: 3, within: 60_000 };
  const expectLimited = (answer: request.Response): void => {
    expect(answer.status).toBe(429);
    // RFC 9110, 10.2.3: seconds.
    expect(Number(answer.headers["retry-after"])).toBeGreaterThan(50);
    expect(Number(answer.headers["retry-after"])).toBeLessThanOrEqual(60);
    expect(answer.text).toContain("Too many attempts failed. Try again in a minute.");
  };

  test("by name, whether anyone has it or not, and however it is written", async () => {
    for (const name of ["ada", "nobody"]) {
      const own = await guardedApp({ signInLimits: limits });
      for (let i = 0; i < 3; i++) expect((await signIn(own.app, ` ${name.toUpperCase()}`, "x")).status).toBe(401);
      expectLimited(await signIn(own.app, name, PASSWORD));
      expect((await signIn(own.app, "rosa", PASSWORD)).status).toBe(303);
    }
  });

  test("by address, whatever the name", async () => {
    const own = await guardedApp({ signInLimits: limits });
    for (let i = 0; i < 5; i++) expect((await signIn(own.app, `name-${i}`, "x")).status).toBe(401);
    expectLimited(await signIn(own.app, "ada", PASSWORD));
    // What a stranger writes of where they come from counts for nothing.
    expectLimited(await signIn(own.app, "ada", PASSWORD).set("x-forwarded-for", "192.0.2.9"));
  });

  test("by the address that a stated proxy names", async () => {
    const own = await guardedApp({ signInLimits: limits, proxies: ["127.0.0.1", "::1", "::ffff:127.0.0.1"] });
    const from = (address: string): request.Test => signIn(own.app, "x", "x").set("x-forwarded-for", address);
    for (let i = 0; i < 5; i++) await from(`192.0.2.9`).send({ name: `name-${i}` });
    expect((await signIn(own.app, "ada", PASSWORD).set("x-forwarded-for", "192.0.2.9")).status).toBe(429);
    expect((await signIn(own.app, "ada", PASSWORD).set("x-forwarded-for", "192.0.2.10")).status).toBe(303);
  });

  test("successful ones do not count", async () => {
    const own = await guardedApp({ signInLimits: limits });
    for (let i = 0; i < 8; i++) expect((await signIn(own.app, "ada", PASSWORD)).status).toBe(303);
  });
});

test("a server with a token alone has people sign in with it", async () => {
  const access = openAccess({ users: null, token: { text: TOKEN, role: "read" }, secure: false });
  const { app } = await guardedApp({ access });
  const page = await request(app).get("/sign-in");
  expect(page.text).toContain(">Token<");
  expect(page.text).not.toContain('name="name"');
  const cookie = cookieIn(await signIn(app, "", TOKEN));
  expect((await sessionOf(app, cookie)).body).toEqual({ name: "token", role: "read", by: "sign-in" });
  expect((await signIn(app, "", `${TOKEN}x`)).text).toContain("This is not the token of this server.");
});

describe("the sign-in page speaks the language that the browser asks for (RFC 9110, 12.5.4)", () => {
  test.each([
    [undefined, "en-GB", "Sign in", "Password"],
    ["de", "de", "Anmelden", "Passwort"],
    ["de-AT,de;q=0.9,en;q=0.5", "de", "Anmelden", "Passwort"],
    ["en,de;q=0.9", "en-GB", "Sign in", "Password"],
    ["fr-CH, fr;q=0.9, de;q=0.7, *;q=0.5", "de", "Anmelden", "Passwort"],
    ["fr", "en-GB", "Sign in", "Password"],
    ["*", "en-GB", "Sign in", "Password"],
    ["x;q=,,constructor", "en-GB", "Sign in", "Password"],
  ])("%s", async (accepted, lang, title, label) => {
    const asked = request(it.app).get("/sign-in");
    const { text, headers } = await (accepted === undefined ? asked : asked.set("accept-language", accepted));
    expect(text).toContain(`<html lang="${lang}">`);
    expect(text).toContain(`<h1>${title}</h1>`);
    expect(text).toContain(`>${label}</label>`);
    expect(text).not.toMatch(/[{}]/);
    expect(headers["vary"]?.toLowerCase()).toContain("accept-language");
  });

  test("a refusal too", async () => {
    const fresh = await guardedApp({ signInLimits: { byAddress: 1, byName: 1, within: 90_000 } });
    const attempt = (): request.Test =>
      request(fresh.app)
        .post("/sign-in")
        .type("form")
        .set("accept-language", "de")
        .send({ name: "ada", password: "x" });
    expect((await attempt()).text).toContain("Name oder Passwort ist falsch.");
    const { status, text } = await attempt();
    expect(status).toBe(429);
    expect(text).toContain("Zu viele Versuche sind fehlgeschlagen. Versuchen Sie es in 2 Minuten wieder.");
  });
});
