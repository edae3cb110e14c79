// Encrypted queues. The certificates are made by openssl, the queue is Debian's redis-server.
import { spawnSync } from "node:child_process";
import { chmodSync } from "node:fs";
import { afterAll, beforeAll, describe, expect, test, vi } from "vitest";
import { openFleet } from "../../../server/queue/fleet.ts";
import { queueFrom } from "../../../server/queue/settings.ts";
import { openQueueView } from "../../../server/queue/status.ts";
import { startWorker } from "../../../server/queue/worker.ts";
import { runStudy } from "../../../server/runs/run-study.ts";
import { loadStudyDocument } from "../../../server/shelves/study.ts";
import { LONG } from "../../setup/long.ts";
import { readExample } from "../../read-example.ts";
import { scratch, trialband, type Finished } from "../cli/trialband.ts";
import { redisHere, startRedis, type TestRedis } from "./redis.ts";

const files = scratch();
const place = (name: string): string => files.path(name);

/** Makes a key and a certificate; with an issuer it is signed by it, for this machine's loopback address. */
function certificate(name: string, issuer?: string): void {
  const by = issuer === undefined ? [] : ["-CA", place(`${issuer}.crt`), "-CAkey", place(`${issuer}.key`)];
  const host = issuer === undefined ? [] : ["-addext", "subjectAltName=IP:127.0.0.1,DNS:localhost"];
  const key = ["-newkey", "ec", "-pkeyopt", "ec_paramgen_curve:prime256v1", "-nodes", "-keyout", place(`${name}.key`)];
  const words = [
    "req",
    "-x509",
    ...key,
    "-out",
    place(`${name}.crt`),
    "-days",
    "2",
    "-subj",
    `/CN=${name}`,
    ...by,
    ...host,
  ];
  const { status, stderr } = spawnSync("openssl", words, { encoding: "utf8" });
  if (status !== 0) throw new Error(stderr);
  chmodSync(place(`${name}.key`), 0o600);
}

const openssl = spawnSync("openssl", ["version"]).status === 0;
if (!openssl) console.warn("No openssl found: the tests of an encrypted queue are skipped.");

describe.skipIf(redisHere() === null || !openssl)("an encrypted queue", () => {
  let redis: TestRedis;
  const env = (ca: string, own?: string): Record<string, string> => ({
    TRIALBAND_QUEUE_CA: place(`${ca}.crt`),
    ...(own === undefined
      ? {}
      : { TRIALBAND_QUEUE_CERTIFICATE: place(`${own}.crt`), TRIALBAND_QUEUE_KEY: place(`${own}.key`) }),
  });
  const encrypted = (name: string, ask: "yes" | "no"): string[] => [
    "--tls-cert-file",
    place(`${name}.crt`),
    "--tls-key-file",
    place(`${name}.key`),
    "--tls-ca-cert-file",
    place("issuer.crt"),
    "--tls-auth-clients",
    ask,
  ];
  const refusal = async (url: string, environment: Record<string, string>): Promise<string> =>
    openQueueView(queueFrom(url, "test", environment)).then(
      () => "it was let in",
      (error: Error) => error.message,
    );
  beforeAll(async () => {
    for (const name of ["issuer", "another"]) certificate(name);
    for (const name of ["queue", "bench"]) certificate(name, "issuer");
    redis = await startRedis(...encrypted("queue", "no"), "--requirepass", "s3cret");
  });
  afterAll(() => redis.close());

  test("is used by those who know its issuer: the same bits", async () => {
    const settings = queueFrom(redis.url, "test", env("issuer"));
    const options = { threads: 1, trust: { named: new Map<string, string>(), all: false }, seconds: 600 };
    const worker = await startWorker(settings, { ...options, tell: () => undefined });
    const fleet = await openFleet(settings, { notice: () => undefined });
    try {
      const loaded = await loadStudyDocument({ ...readExample("verdicts/another-factor"), trials: 20_000 }, null);
      const [there, here] = [await runStudy(loaded, { fleet: async () => fleet }), await runStudy(loaded)];
      expect(there.record.seal.results).toBe(here.record.seal.results);
    } finally {
      await Promise.all([worker.close(), fleet.close()]);
    }
  });

  test("is refused with another issuer, without one, and where its certificate is for another host", async () => {
    const unknown = /its certificate was issued by nobody whom this machine trusts .*TRIALBAND_QUEUE_CA/;
    expect(await refusal(redis.url, env("another"))).toMatch(unknown);
    expect(await refusal(redis.url, {})).toMatch(unknown);
    certificate("elsewhere");
    // Signed by itself, so that it is its own issuer, and names no host but itself.
    const other = await startRedis(...encrypted("elsewhere", "no"));
    try {
      expect(await refusal(other.url, env("elsewhere"))).toMatch(/its certificate is another host's\. .*127\.0\.0\.1/);
    } finally {
      await other.close();
    }
  });

  test("that asks who comes is shown a certificate", async () => {
    const asking = await startRedis(...encrypted("queue", "yes"));
    try {
      expect(await refusal(asking.url, env("issuer"))).toMatch(
        /If it asks for a certificate of this machine, name it in TRIALBAND_QUEUE_CERTIFICATE/,
      );
      expect(await refusal(asking.url, env("issuer", "bench"))).toBe("it was let in");
    } finally {
      await asking.close();
    }
  });

  test("mistaken for a plain one, and a plain one mistaken for it, is said", LONG, async () => {
    const plain = await startRedis();
    try {
      expect(await refusal(plain.url.replace("redis:", "rediss:"), env("issuer"))).toMatch(
        /Does it expect redis:\/\/\?/,
      );
      expect(await refusal(redis.url.replace("rediss:", "redis:"), {})).toMatch(/Does it expect rediss:\/\/\?/);
    } finally {
      await plain.close();
    }
  });

  test("by the command, with the issuer in the environment", async () => {
    const status = async (ca: string): Promise<Finished> => {
      for (const [name, value] of Object.entries({ ...env(ca), TRIALBAND_QUEUE: redis.url })) vi.stubEnv(name, value);
      return trialband("queue", "status", "--queue");
    };
    const [right, wrong] = [await status("issuer"), await status("another")];
    expect(right.stdout + right.stderr).toContain("0 worker(s)");
    expect(wrong.status).toBe(1);
    expect(wrong.stderr).toMatch(/rediss:\/\/127\.0\.0\.1:\d+\/0 cannot be used: its certificate was issued by nobody/);
    for (const { stdout, stderr } of [right, wrong]) expect(stdout + stderr).not.toContain("s3cret");
  });

  test.each([
    [
      "a file that is not there",
      { TRIALBAND_QUEUE_CA: "/nowhere/ca.crt" },
      /TRIALBAND_QUEUE_CA names \/nowhere\/ca.crt/,
    ],
    [
      "a file that is no certificate",
      () => ({ TRIALBAND_QUEUE_CA: files.write("words", "secret") }),
      /BEGIN CERTIFICATE/,
    ],
    [
      "a certificate without its key",
      () => ({ TRIALBAND_QUEUE_CERTIFICATE: place("bench.crt") }),
      /TRIALBAND_QUEUE_KEY/,
    ],
    [
      "another certificate's key",
      () => ({ ...env("issuer", "bench"), TRIALBAND_QUEUE_KEY: place("queue.key") }),
      /key values mismatch/,
    ],
  ] as const)("%s is refused", (_what, given, words) => {
    const environment = typeof given === "function" ? given() : given;
    let said = "";
    try {
      queueFrom("rediss://queue.example", "test", environment);
    } catch (error) {
      said = JSON.stringify([(error as Error).message, (error as { problems?: unknown }).problems]);
    }
    expect(said).toMatch(words);
  });
});
