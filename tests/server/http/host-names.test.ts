import { request as ask } from "node:http";
import { describe, expect, test } from "vitest";
import { hostNames } from "../../../server/http/host-names.ts";
import { serve } from "../../../server/serve.ts";

const options = { port: 0, workers: 1, store: null };
const statusFor = (url: string, host: string): Promise<number> =>
  new Promise((resolve, reject) => {
    ask(`http://127.0.0.1:${new URL(url).port}/api/about`, { headers: { host } }, (response) => {
      response.resume();
      resolve(response.statusCode!);
    })
      .on("error", reject)
      .end();
  });

describe("the names a server answers to", () => {
  test.each<[string, readonly string[], readonly string[]]>([
    ["127.0.0.1", [], []],
    ["::1", [], []],
    ["0.0.0.0", ["Bench-3.example"], ["bench-3.example"]],
    ["192.0.2.7", ["192.0.2.7", "2001:db8::7"], ["192.0.2.7", "[2001:db8::7]"]],
    ["::", ["[2001:DB8::7]", "::ffff:192.0.2.7"], ["[2001:db8::7]", "[::ffff:192.0.2.7]"]],
  ])("on %s with %j", (host, stated, more) => {
    expect([...hostNames(host, stated)]).toEqual(["127.0.0.1", "localhost", "[::1]", ...more]);
  });

  test.each<[readonly string[], string]>([
    [[], "nothing"],
    [["*"], '"*"'],
    [["a.example:80"], '"a.example:80"'],
    [["http://a.example"], '"http://a.example"'],
    [[""], '""'],
  ])("beyond this machine, %j is refused", (stated, value) => {
    expect(() => hostNames("0.0.0.0", stated)).toThrow(
      expect.objectContaining({ problems: [expect.objectContaining({ place: "--allow-host", value })] }),
    );
  });

  test("are required before anything is opened, beyond this machine", async () => {
    await expect(serve({ ...options, host: "0.0.0.0", warn: () => undefined })).rejects.toMatchObject({
      problems: [{ place: "--allow-host" }],
    });
  });

  test("are the only ones answered, and a person is warned that the server asks nobody who they are", async () => {
    const warned: string[] = [];
    const warn = (message: string): void => void warned.push(message);
    const serving = await serve({ ...options, host: "0.0.0.0", allowedHosts: ["bench-3.example"], warn });
    try {
      expect(warned).toEqual([expect.stringContaining("anyone who reaches it can read, run and remove")]);
      for (const [host, status] of [
        ["bench-3.example", 200],
        ["BENCH-3.example:8417", 200],
        ["localhost", 200],
        ["elsewhere.example", 421],
        ["bench-3.example.elsewhere.example", 421],
      ] as const)
        expect(await statusFor(serving.url, host), host).toBe(status);
    } finally {
      await serving.close();
    }
  });
});
