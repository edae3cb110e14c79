import { copyFileSync, chmodSync } from "node:fs";
import { get } from "node:https";
import { join } from "node:path";
import { connect } from "node:tls";
import { afterAll, describe, expect, test } from "vitest";
import { readTls } from "../../../server/http/tls.ts";
import { serve } from "../../../server/serve.ts";
import { secretFolder, TOKEN, usersFile } from "../access/people.ts";

const at = (name: string): string => join(import.meta.dirname, "certificates", name);
const folder = secretFolder();
afterAll(() => folder.drop());
/** A copy with the rights that a key should have. */
const own = (name: string, as = name): string => {
  copyFileSync(at(name), folder.path(as));
  chmodSync(folder.path(as), 0o600);
  return folder.path(as);
};
const bench = { certificate: at("bench.crt"), key: own("bench.key") };

describe("a certificate and its key", () => {
  const said = (files = bench, names: readonly string[] = [], now?: string): string[] => {
    const warned: string[] = [];
    readTls(files, names, (message) => warned.push(message), now === undefined ? undefined : Date.parse(now));
    return warned;
  };

  test("that fit are taken without a word", () => {
    expect(said(bench, ["bench-3.example", "BENCH-3.EXAMPLE", "127.0.0.1", "localhost"])).toEqual([]);
  });

  // Valid from 2020-01-01 to 2120-01-01.
  test.each([
    ["2120-01-02", /ended on 2120-01-01: browsers will refuse it/],
    ["2119-12-20", /ends on 2120-01-01\.$/],
    ["2019-12-31", /begins on 2020-01-01: browsers will refuse it until then/],
  ])("at %s it is said: %s", (now, words) => {
    expect(said(bench, [], now)).toEqual([expect.stringMatching(words)]);
  });

  test("that do not name the server are taken with a warning", () => {
    expect(said(bench, ["bench-4.example", "[2001:db8::7]"])).toEqual([
      expect.stringContaining("does not name bench-4.example, [2001:db8::7]"),
    ]);
  });

  test("a key that every user of the machine can read is warned of", () => {
    chmodSync(own("bench.key", "open.key"), 0o644);
    expect(said({ ...bench, key: folder.path("open.key") })).toEqual([
      expect.stringContaining("Every user of this machine can read"),
    ]);
  });

  test.each<[string, { certificate?: string; key?: string }, object]>([
    [
      "another certificate's key",
      { key: at("other.key") },
      { problems: [expect.objectContaining({ place: "--key" })] },
    ],
    [
      "a key behind a passphrase",
      { key: at("locked.key") },
      { problems: [expect.objectContaining({ place: "--key" })] },
    ],
    ["a certificate as the key", { key: at("bench.crt") }, { problems: [expect.objectContaining({ place: "--key" })] }],
    [
      "a key as the certificate",
      { certificate: at("bench.key") },
      { problems: [expect.objectContaining({ place: "--certificate" })] },
    ],
    ["no file", { key: at("none.key") }, { code: "no-such-file" }],
  ])("%s is refused, without a byte of a key", (_, files, found) => {
    let error: unknown;
    try {
      readTls({ ...bench, ...files }, [], () => undefined);
    } catch (thrown) {
      error = thrown;
    }
    expect(error).toMatchObject(found);
    expect(JSON.stringify(error) + String(error)).not.toContain("BEGIN");
  });
});

describe("a server over TLS", () => {
  const ask = (url: string, path: string, headers: Record<string, string> = {}) =>
    new Promise<{ status: number; headers: NodeJS.Dict<string | string[]> }>((resolve, reject) => {
      get(new URL(path, url), { rejectUnauthorized: false, headers, agent: false }, (response) => {
        response.resume();
        resolve({ status: response.statusCode!, headers: response.headers });
      }).on("error", reject);
    });
  const nameAt = (url: string): Promise<string> =>
    new Promise((resolve, reject) => {
      const socket = connect(Number(new URL(url).port), "127.0.0.1", { rejectUnauthorized: false }, () => {
        resolve(String(socket.getPeerCertificate().subject.CN));
        socket.destroy();
      });
      socket.on("error", reject);
    });

  test("answers with HSTS, knows its own origin, and takes another certificate while it goes on", async () => {
    const warned: string[] = [];
    const files = { certificate: own("bench.crt", "now.crt"), key: own("bench.key", "now.key") };
    const serving = await serve({
      host: "127.0.0.1",
      port: 0,
      workers: 1,
      store: null,
      users: await usersFile(),
      token: { text: TOKEN, role: "run" },
      tls: files,
      warn: (message) => warned.push(message),
    });
    try {
      expect(serving.url).toMatch(/^https:\/\/127\.0\.0\.1:\d+\/$/);
      const authorization = `Bearer ${TOKEN}`;
      const answer = await ask(serving.url, "/api/about", { authorization });
      expect(answer.status).toBe(200);
      // RFC 6797, 6.1; without the subdomains, which may have no TLS.
      expect(answer.headers["strict-transport-security"]).toBe("max-age=2592000");
      expect(await nameAt(serving.url)).toBe("bench-3.example");
      // Half of an exchange: the key is not yet the new certificate's.
      copyFileSync(at("other.crt"), files.certificate);
      serving.renewCertificate();
      expect(warned).toEqual([expect.stringMatching(/The old certificate stays in use: .*--key.*another one's/)]);
      expect(await nameAt(serving.url)).toBe("bench-3.example");
      copyFileSync(at("other.key"), files.key);
      serving.renewCertificate();
      expect(await nameAt(serving.url)).toBe("other.example");
    } finally {
      await serving.close();
    }
  });
});
