import { createServer, request as ask, type Server } from "node:http";
import type { AddressInfo } from "node:net";
import request from "supertest";
import { afterAll, beforeAll, describe, expect, test } from "vitest";
import { allows } from "../../../server/access/identity.ts";
import type { Operation } from "../../../server/openapi/described.ts";
import { everyOperation } from "../../../server/routes/operations.ts";
import { ROLES, type Role } from "../../../viewer/api/access.ts";
import { guardedApp, nameOf, TOKEN, type Guarded } from "../access/people.ts";

/** Every route, as it declares itself. */
const declared = everyOperation();
/** An address of the route that leads to nothing and starts nothing. */
const addressOf = ({ path }: Operation): string =>
  path === "/api/selfcheck" ? `${path}?quick=x` : path.replaceAll(/[:*]\w+/g, "none");

let it: Guarded;
let cookies: Readonly<Record<Role, string>>;
let server: Server;
let port = 0;
beforeAll(async () => {
  it = await guardedApp();
  cookies = {
    read: await it.cookieOf("read"),
    run: await it.cookieOf("run"),
    administer: await it.cookieOf("administer"),
  };
  server = createServer(it.app);
  await new Promise<void>((resolve) => server.listen(0, "127.0.0.1", resolve));
  port = (server.address() as AddressInfo).port;
});
afterAll(() => void server.close());

/** The status for an address as it is written, which a client of higher level would tidy up. */
const statusOf = (method: string, path: string, headers: Record<string, string> = {}): Promise<number> =>
  new Promise((resolve, reject) => {
    ask({ port, method, path, headers }, (response) => {
      response.resume();
      resolve(response.statusCode!);
    })
      .on("error", reject)
      .end();
  });

test("routes are found, and some need each role", () => {
  expect(declared.length).toBeGreaterThan(20);
  expect(new Set(declared.map(({ needs }) => needs))).toEqual(new Set(ROLES));
});

test.each(declared)("$method $path needs the role $needs", async (route) => {
  const { method, needs } = route;
  const stranger = await request(it.app)[method](addressOf(route)).set("accept", "text/html");
  expect({ status: stranger.status, challenge: stranger.headers["www-authenticate"] }).toEqual({
    status: 401,
    challenge: 'Bearer realm="Trialband"',
  });
  expect(stranger.body).toMatchObject({ code: "sign-in-needed", type: "/api/problems/sign-in-needed" });
  for (const role of ROLES) {
    // The session that asks for its end would be missing for the next one.
    const cookie = route.path === "/api/session" ? await it.cookieOf(role) : cookies[role];
    const answer = await request(it.app)[method](addressOf(route)).set("cookie", cookie);
    expect(answer.status, role).not.toBe(401);
    expect((answer.body as { code?: string }).code === "not-allowed", role).toBe(!allows(role, needs));
    if (allows(role, needs)) continue;
    expect(answer.status).toBe(403);
    // RFC 6750, 3.1.
    expect(answer.headers["www-authenticate"]).toBe(
      `Bearer realm="Trialband", error="insufficient_scope", scope="${needs}"`,
    );
    expect((answer.body as { detail: string }).detail).toContain(`${nameOf(role)} has the role “${role}”`);
  }
});

describe("nothing is answered to a stranger, however the address is written", () => {
  test.each(
    [
      "/",
      "/index.html",
      "/mark.svg",
      "/sign-in.html",
      "/assets/",
      "/api/runs",
      "/API/RUNS",
      "//api/runs",
      "///api//runs",
      "/api/runs/",
      "/api/./runs",
      "/sign-in/../api/runs",
      "/sign-in/%2e%2e/api/runs",
      "/sign-in%2f..%2fapi/runs",
      "/assets/../api/runs",
      "/assets/%2e%2e/index.html",
      "/%61pi/runs",
      "/api/runs?/sign-in",
      "/api/runs#/sign-in",
      "/api/runs;/sign-in",
      "/api/runs%00",
      "http://127.0.0.1/api/runs",
      "/healthz",
      "/metrics",
      "/HEALTHZ",
      "/api/problems/internal",
    ].flatMap((path) =>
      ["GET", "HEAD", "OPTIONS", "POST", "TRACE", "PROPFIND"].map((method) => [method, path] as const),
    ),
  )("%s %s", async (method, path) => {
    const status = await statusOf(method, path);
    expect(status).toBe(401);
  });

  test("every file of the page but the style of the sign-in", async () => {
    const { text } = await request(it.app).get("/index.html").set("cookie", cookies.read);
    const files = Array.from(text.matchAll(/(?:src|href)="\.\/([^"]+)"/g), ([, file]) => `/${file}`);
    expect(files.length).toBeGreaterThan(2);
    for (const file of files) {
      expect((await request(it.app).get(file)).status, file).toBe(401);
      expect((await request(it.app).get(file).set("cookie", cookies.read)).status, file).toBe(200);
    }
    const page = await request(it.app).get("/sign-in");
    const loaded = Array.from(page.text.matchAll(/(?:src|href)="\.\/([^"]+)"/g), ([, file]) => `/${file}`);
    expect(loaded).toEqual([expect.stringMatching(/^\/assets\/sign-in-[\w-]+\.css$/)]);
    const style = await request(it.app).get(loaded[0]!);
    expect(style.status).toBe(200);
    // It leads to no other file, which a stranger would not get.
    expect(style.text).not.toMatch(/url\(|@import/);
  });

  test("a browser keeps what is named by its content, for its reader alone, and asks for the rest each time", async () => {
    const get = (path: string): request.Test => request(it.app).get(path).set("cookie", cookies.read);
    const index = await get("/");
    expect(index.headers["cache-control"]).toBe("private, no-cache");
    const assets = Array.from(index.text.matchAll(/(?:src|href)="\.(\/assets\/[^"]+)"/g), ([, file]) => file!);
    expect(assets.length).toBeGreaterThan(1);
    // RFC 8246 and RFC 9111, 5.2.2.7.
    for (const file of assets)
      expect((await get(file)).headers["cache-control"], file).toBe("private, max-age=31536000, immutable");
    expect((await get("/assets/of-another-build.js")).headers["cache-control"] ?? "").not.toContain("immutable");
  });

  test("a browser that asks for a page is led to the sign-in, with nothing of what it asked for", async () => {
    for (const path of ["/", "/index.html", "/anything?next=//elsewhere.example"]) {
      const answer = await request(it.app).get(path).set("accept", "text/html,*/*;q=0.8");
      expect({ status: answer.status, to: answer.headers["location"] }).toEqual({ status: 303, to: "/sign-in" });
    }
  });

  test("a body is not read before who sends it is known", async () => {
    const sent = ask({ port, method: "POST", path: "/api/records", headers: { "content-type": "application/json" } });
    const answered = new Promise<number>((resolve, reject) => {
      sent.on("response", (response) => resolve(response.statusCode!)).on("error", reject);
    });
    // The first bytes of a body that never ends.
    sent.write("[");
    expect(await answered).toBe(401);
    sent.destroy();
  });
});

describe("a program's token", () => {
  test("names it, with the role stated for it", async () => {
    const { body } = await request(it.app).get("/api/session").set("authorization", `Bearer ${TOKEN}`);
    expect(body).toEqual({ name: "token", role: "run", by: "token" });
    expect((await request(it.app).delete("/api/kept-runs/none").set("authorization", `bearer ${TOKEN}`)).status).toBe(
      403,
    );
    expect((await request(it.app).get("/healthz").set("authorization", `Bearer ${TOKEN}`)).status).toBe(200);
  });

  test.each([
    ["another", `Bearer ${TOKEN}x`],
    ["a part", `Bearer ${TOKEN.slice(0, -1)}`],
    ["none", "Bearer "],
    ["another scheme", `Basic ${Buffer.from(`ada:${TOKEN}`).toString("base64")}`],
    ["two", `Bearer ${TOKEN}, Bearer ${TOKEN}`],
  ])("%s is refused, even beside a session that is let in", async (_, authorization) => {
    const answer = await request(it.app).get("/api/session").set({ authorization, cookie: cookies.read });
    expect(answer.status).toBe(401);
    expect(answer.headers["www-authenticate"]).toBe('Bearer realm="Trialband", error="invalid_token"');
    expect(answer.text).not.toContain(TOKEN.slice(0, 10));
  });
});

test("what is answered to one person stays in no cache for the next", async () => {
  const { headers } = await request(it.app).get("/api/studies").set("cookie", cookies.read);
  expect(headers["cache-control"]).toBe("no-store");
});
