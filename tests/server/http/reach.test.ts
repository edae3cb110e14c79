import { describe, expect, test } from "vitest";
import { reachOf, type ReachOptions } from "../../../server/http/reach.ts";

const TLS = { certificate: "c", key: "k" };
const names = ["bench-3.example"];

describe("beyond its own machine a server is reached only as it is stated", () => {
  test.each<[string, ReachOptions, string]>([
    ["nobody is asked", { host: "0.0.0.0", allowedHosts: names, tls: TLS, asks: false }, "--users"],
    [
      "nobody is asked, and it need not be encrypted",
      { host: "::", allowedHosts: names, unencrypted: true, asks: false },
      "--users",
    ],
    [
      "nobody is asked, behind a proxy",
      { host: "127.0.0.1", publicOrigin: "https://a.example", asks: false },
      "--users",
    ],
    ["no name", { host: "0.0.0.0", tls: TLS, asks: true }, "--allow-host"],
    ["not encrypted", { host: "192.0.2.7", allowedHosts: names, asks: true }, "--certificate"],
    [
      "not encrypted to a proxy elsewhere",
      { host: "192.0.2.7", publicOrigin: "https://a.example", asks: true },
      "--certificate",
    ],
    [
      "not encrypted from the proxy",
      { host: "127.0.0.1", publicOrigin: "http://a.example", asks: true },
      "--certificate",
    ],
    [
      "two schemes",
      { host: "127.0.0.1", publicOrigin: "http://a.example", tls: TLS, unencrypted: true, asks: true },
      "--public-origin",
    ],
    ...[
      "a.example",
      "https://a.example/page",
      "https://u@a.example",
      "ftp://a.example",
      "https://",
      "https://a b",
      "https://a.example?x",
    ].map((publicOrigin): [string, ReachOptions, string] => [
      publicOrigin,
      { host: "127.0.0.1", publicOrigin, asks: true },
      "--public-origin",
    ]),
  ])("%s: refused", (_, options, place) => {
    expect(() => reachOf(options)).toThrow(expect.objectContaining({ problems: [expect.objectContaining({ place })] }));
  });

  test.each<[string, ReachOptions, object]>([
    ["its own machine", { host: "127.0.0.1", asks: false }, { publicOrigin: null, secure: false, warning: null }],
    ["its own machine, by users", { host: "::1", asks: true }, { publicOrigin: null, secure: false, warning: null }],
    ["over TLS", { host: "0.0.0.0", allowedHosts: names, tls: TLS, asks: true }, { secure: true, warning: null }],
    [
      "behind a proxy that speaks TLS",
      { host: "127.0.0.1", publicOrigin: "https://A.example:8443/", asks: true },
      { publicOrigin: "https://a.example:8443", secure: true, warning: null, statedNames: ["a.example"] },
    ],
    [
      "as a person wants it",
      { host: "0.0.0.0", allowedHosts: names, unencrypted: true, asks: true },
      { secure: false, warning: expect.stringContaining("Traffic is not encrypted") },
    ],
  ])("%s", (_, options, reach) => {
    expect(reachOf(options)).toMatchObject(reach);
  });
});
