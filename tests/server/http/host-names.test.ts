import { request as ask } from "node:http";
import { describe, expect, test } from "vitest";
import { hostNames } from "../../../server/http/host-names.ts";
import { serve } from "../../../server/serve.ts";
import { TOKEN } from "../access/people.ts";

const options = { port: 0, workers: 1, store: null };
const statusFor = (url: string, host: string, more: Record<string, string> = {}): Promise<number> =>
  new Promise((resolve, reject) => {
    ask(`http://127.0.0.1:${new URL(url).port}/api/about`, { headers: { host, ...more } }, (response) => {
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

  test("are the only ones answered, and a person is warned that nothing is encrypted", async () => {
    const warned: string[] = [];
    const serving = await serve({
      ...options,
      host: "0.0.0.0",
      allowedHosts: ["bench-3.example"],
      token: { text: TOKEN, role: "read" },
      unencrypted: true,
      warn: (message) => void warned.push(message),
    });
    try {
      expect(warned).toEqual([expect.stringContaining("anyone who can read the network reads passwords")]);
      for (const [host, status] of [
        ["bench-3.example", 401],
        ["BENCH-3.example:8417", 401],
        ["localhost", 401],
        ["elsewhere.example", 421],
        ["bench-3.example.elsewhere.example", 421],
      ] as const)
        expect(await statusFor(serving.url, host), host).toBe(status);
      expect(await statusFor(serving.url, "elsewhere.example", { "x-forwarded-host": "localhost" })).toBe(421);
    } finally {
      await serving.close();
    }
  });
});
