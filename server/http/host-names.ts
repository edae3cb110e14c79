import { refused } from "../errors.ts";

const OWN = ["127.0.0.1", "localhost", "::1"];

/** Whether an address to listen on is reached from this machine only. */
export const isLoopback = (host: string): boolean => OWN.includes(host);

/**
 * The names a server answers to, so that the page of another site cannot reach it by renaming itself: those of this
 * machine, and beyond it those that are stated.
 *
 * @throws {Fault} `bad-input`: an address that is reached from other machines, and no name stated
 */
export function hostNames(host: string, stated: readonly string[]): ReadonlySet<string> {
  if (!isLoopback(host) && stated.length === 0)
    throw refused(
      "--allow-host",
      undefined,
      `the names or addresses by which people reach this server, since --host ${host} leads beyond this machine`,
    );
  for (const name of stated)
    if (!/^([a-z0-9_.-]+|\[?[0-9a-f:.]*:[0-9a-f:.]*\]?)$/i.test(name))
      throw refused("--allow-host", name, "a name or an address without port, such as bench-3.example or 192.0.2.7");
  // A Host header has an address of IPv6 in brackets: RFC 3986, 3.2.2.
  return new Set(
    [...OWN, ...stated].map((name) => (name.includes(":") && !name.startsWith("[") ? `[${name}]` : name).toLowerCase()),
  );
}
