import { join } from "node:path";
import request from "supertest";
import { describe, expect, test } from "vitest";
import { createApp } from "../../../server/app.ts";
import { Runs } from "../../../server/runs/runs.ts";
import { studyShelf } from "../../../server/shelves/studies.ts";
import { openStore } from "../../../server/store/open-store.ts";

const root = join(import.meta.dirname, "../../..");
const OPTIONS = {
  runs: new Runs(() => Promise.reject(new Error("not wanted here")), openStore({ folder: null })),
  shelf: studyShelf(join(root, "examples")),
  workers: 1,
  page: join(root, "viewer/page"),
  hosts: null,
};
const app = createApp(OPTIONS);

/** Headers as W3C Fetch Metadata Request Headers (2.3) and RFC 6454 (7) have browsers send them. */
describe("what another site's page has a browser ask for is refused", () => {
  test.each<[string, string, "get" | "post" | "put" | "delete", Record<string, string>, number, string | null]>([
    ["own page", "/api/about", "get", { "sec-fetch-site": "same-origin" }, 200, null],
    ["typed by a person", "/api/about", "get", { "sec-fetch-site": "none" }, 200, null],
    ["no browser", "/api/about", "get", {}, 200, null],
    ["another site", "/api/about", "get", { "sec-fetch-site": "cross-site" }, 403, "cross-site"],
    ["another port of this machine", "/api/about", "get", { "sec-fetch-site": "same-site" }, 403, "cross-site"],
    ["another site's link to the page", "/index.html", "get", { "sec-fetch-site": "cross-site" }, 200, null],
    ["another site", "/api/selfcheck?quick=x", "post", { "sec-fetch-site": "cross-site" }, 403, "cross-site"],
    ["another origin", "/api/selfcheck?quick=x", "post", { origin: "https://elsewhere.example" }, 403, "cross-site"],
    ["an origin that may not be known", "/api/selfcheck?quick=x", "post", { origin: "null" }, 403, "cross-site"],
    ["another origin", "/api/runs/none", "delete", { origin: "https://elsewhere.example" }, 403, "cross-site"],
    ["another origin", "/api/kept-runs/none/note", "put", { origin: "http://a.example:80" }, 403, "cross-site"],
    [
      "own origin over another scheme",
      "/api/runs/none",
      "delete",
      { host: "a.example", origin: "https://a.example" },
      403,
      "cross-site",
    ],
    ["own origin", "/api/runs/none", "delete", { host: "a.example", origin: "http://a.example" }, 404, "no-such-run"],
    [
      "own origin, no body",
      "/api/selfcheck?quick=x",
      "post",
      { host: "a.example:8", origin: "http://A.example:8" },
      422,
      "bad-input",
    ],
  ])("%s: %s by %s with %j", async (_, path, method, headers, status, code) => {
    const answer = await request(app)[method](path).set(headers);
    expect({ status: answer.status, code: (answer.body as { code?: string }).code ?? null }).toEqual({ status, code });
  });

  test.each([
    ["application/x-www-form-urlencoded", 415],
    ["multipart/form-data; boundary=x", 415],
    ["text/plain", 415],
    ["TEXT/plain; charset=utf-8", 415],
    ["application/json", 422],
  ])("a body of %s, which a form can send, is refused", async (type, status) => {
    const answer = await request(app)
      .post("/api/runs")
      .set("content-type", type)
      .serialize((body: unknown) => body as string)
      .send("{}");
    expect(answer.status).toBe(status);
  });

  test("a body of no type is refused", async () => {
    const asked = request(app).post("/api/runs").set("content-length", "2");
    asked.write("{}");
    expect((await asked).status).toBe(415);
  });
});

/** A proxy ends TLS: the server sees http, the browser https. */
test.each([
  ["https://a.example", 404],
  ["HTTPS://A.example", 404],
  ["http://a.example", 403],
  ["https://a.example:8443", 403],
  ["http://127.0.0.1:8417", 403],
])("behind a proxy, the stated origin is the own one, whatever the proxy writes: %s", async (origin, status) => {
  const proxied = createApp({ ...OPTIONS, publicOrigin: "https://a.example", proxies: ["127.0.0.1"] });
  const headers = { host: "127.0.0.1:8417", origin, "x-forwarded-proto": "http", "x-forwarded-host": "b.example" };
  expect((await request(proxied).delete("/api/runs/none").set(headers)).status).toBe(status);
});

/** CSP Level 3: directives 6.1 (fetch), 6.3.1 base-uri, 6.4.1 form-action, 6.4.2 frame-ancestors. */
test.each(["/index.html", "/api/about", "/api/nothing"])(
  "%s goes with a policy without anything inline",
  async (path) => {
    const { headers } = await request(app).get(path);
    const policy = Object.fromEntries(
      headers["content-security-policy"]!.split(";").map((part) => {
        const [name, ...sources] = part.trim().split(" ");
        return [name, sources.join(" ")] as const;
      }),
    );
    expect(policy).toEqual({
      "default-src": "'self'",
      "img-src": "'self' data: blob:",
      "object-src": "'none'",
      "base-uri": "'none'",
      "form-action": "'self'",
      "frame-ancestors": "'none'",
    });
    expect(headers).toMatchObject({
      "x-content-type-options": "nosniff",
      "referrer-policy": "no-referrer",
      "cross-origin-resource-policy": "same-origin",
      "x-frame-options": "DENY",
    });
    expect(headers).not.toHaveProperty("x-powered-by");
  },
);
