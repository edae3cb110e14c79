// A password of a queue shows nowhere. Needs dist/ and a redis-server.
import { spawn, type ChildProcess } from "node:child_process";
import { readFileSync } from "node:fs";
import { join } from "node:path";
import { afterAll, beforeAll, describe, expect, test } from "vitest";
import { openQueueView } from "../../../server/queue/status.ts";
import { LONG } from "../../setup/long.ts";
import { root, startTrialband } from "../cli/trialband.ts";
import { redisHere, startRedis, type TestRedis } from "./redis.ts";

const SECRET = "s3cret-of-the-queue";
const STUDY = "examples/verdicts/another-factor.json";

describe.skipIf(redisHere() === null)("a queue with a password", () => {
  let redis: TestRedis;
  const started: { readonly child: ChildProcess; said: string }[] = [];
  const start = async (args: readonly string[], env: Record<string, string>): Promise<(typeof started)[number]> => {
    const child = spawn(process.execPath, [join(root, "bin.mjs"), ...args], {
      cwd: root,
      env: { ...process.env, ...env },
    });
    const one = { child, said: "" };
    started.push(one);
    await new Promise<void>((resolve, reject) => {
      for (const stream of [child.stdout, child.stderr])
        stream.on("data", (data: Buffer) => {
          one.said += data.toString("utf8");
          if (one.said.includes("draws with")) resolve();
        });
      child.once("exit", () => reject(new Error(`it ended: ${one.said}`)));
    });
    return one;
  };
  beforeAll(async () => {
    redis = await startRedis("--requirepass", SECRET);
  });
  afterAll(async () => {
    await Promise.all(
      started.map(({ child }) => {
        const ended = new Promise((resolve) => child.once("exit", resolve));
        child.kill("SIGTERM");
        return ended;
      }),
    );
    await redis.close();
  });

  test(
    "shows in no argument that others see, no message and no record; without it nobody is let in",
    LONG,
    async () => {
      const [byArgument, byEnvironment] = await Promise.all([
        start(["worker", "--threads", "1", "--queue", redis.url], {}),
        start(["worker", "--threads", "1", "--queue"], { TRIALBAND_QUEUE: redis.url }),
      ]);
      if (process.platform === "linux")
        for (const { child } of [byArgument, byEnvironment])
          expect(readFileSync(`/proc/${child.pid}/cmdline`, "utf8")).not.toContain(SECRET);
      const run = startTrialband("run", STUDY, "--trials", "20000", "--json", "--queue", redis.url);
      expect(run.status, run.stderr).toBe(0);
      expect(run.stdout).toContain('"seal"');
      const status = startTrialband("queue", "status", "--json", "--queue", redis.url);
      expect((JSON.parse(status.stdout) as { workers: unknown[] }).workers).toHaveLength(2);
      const wrong = startTrialband("run", STUDY, "--queue", redis.url.replace(SECRET, `${SECRET}-wrong`));
      expect(wrong.status).toBe(1);
      expect(wrong.stderr).toMatch(/The queue at redis:\/\/127\.0\.0\.1:\d+\/0 cannot be used: .*(WRONGPASS|password)/);
      const view = await openQueueView(redis.settings);
      const state = JSON.stringify(await view.read());
      await view.close();
      const said = [run, status, wrong].flatMap(({ stdout, stderr }) => [stdout, stderr]);
      for (const text of [...said, state, ...started.map((one) => one.said)]) expect(text).not.toContain(SECRET);
    },
  );

  test("a queue that is not there is said at once", LONG, () => {
    const away = startTrialband("run", STUDY, "--queue", "redis://127.0.0.1:1");
    expect(away.status).toBe(1);
    expect(away.stderr).toContain("The queue at redis://127.0.0.1:1/0 cannot be used: connect ECONNREFUSED");
    expect(startTrialband("worker").status).toBe(2);
    expect(startTrialband("run", STUDY, "--workers", "2", "--queue", redis.url).stderr).toContain("--workers");
  });
});
