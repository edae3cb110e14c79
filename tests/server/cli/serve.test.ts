// What only a process shows of a server: its signals. Needs dist/.
import { copyFileSync } from "node:fs";
import { join } from "node:path";
import { connect } from "node:tls";
import { expect, test } from "vitest";
import { startServing } from "../../campaign/serving.ts";
import { nameOf, setUser, usersFile } from "../access/people.ts";
import { emptyFolder } from "../store/sample.ts";

const made = (name: string): string => join(import.meta.dirname, "../http/certificates", name);

/** Name in the certificate that a server shows. */
const nameAt = (url: string): Promise<string> =>
  new Promise((resolve, reject) => {
    const socket = connect(Number(new URL(url).port), "127.0.0.1", { rejectUnauthorized: false }, () => {
      resolve(String(socket.getPeerCertificate().subject.CN));
      socket.destroy();
    });
    socket.on("error", reject);
  });

test("on SIGHUP a server reads its certificate again, keeps the old one while the files do not fit, and goes on", async () => {
  const folder = emptyFolder();
  const files = { certificate: join(folder, "now.crt"), key: join(folder, "now.key") };
  copyFileSync(made("bench.crt"), files.certificate);
  copyFileSync(made("bench.key"), files.key);
  const secure = ["--certificate", files.certificate, "--key", files.key, "--users", await usersFile()];
  const server = await startServing(join(folder, "store"), ...secure);
  try {
    expect(await nameAt(server.url)).toBe("bench-3.example");
    copyFileSync(made("other.crt"), files.certificate);
    server.process.kill("SIGHUP");
    await expect.poll(() => server.said()).toContain("The old certificate stays in use");
    expect(await nameAt(server.url)).toBe("bench-3.example");
    copyFileSync(made("other.key"), files.key);
    server.process.kill("SIGHUP");
    await expect.poll(() => nameAt(server.url)).toBe("other.example");
  } finally {
    await server.stop();
  }
});

test("the users of a server are those of their file now; SIGHUP does not end it, and SIGTERM does", async () => {
  const folder = emptyFolder();
  const users = await usersFile();
  const server = await startServing(join(folder, "store"), "--users", users);
  const signIn = async (name: string, password: string): Promise<number> => {
    const { origin } = new URL(server.url);
    const body = new URLSearchParams({ name, password });
    return (
      await fetch(new URL("sign-in", server.url), { method: "POST", body, headers: { origin }, redirect: "manual" })
    ).status;
  };
  try {
    await setUser(users, "nele", "read", "one more kettle");
    server.process.kill("SIGHUP");
    expect(await signIn("nele", "one more kettle")).toBe(303);
    await setUser(users, nameOf("run"), "run", "another password");
    expect(await signIn(nameOf("run"), "another password")).toBe(303);
    expect(server.process.exitCode).toBeNull();
  } finally {
    await server.stop();
  }
  expect(server.process.exitCode).toBe(0);
});

test("a server of one machine stops, with its runs kept, when its terminal is closed", async () => {
  const server = await startServing(emptyFolder());
  const ended = new Promise((resolve) => server.process.once("exit", resolve));
  server.process.kill("SIGHUP");
  expect(await ended).toBe(0);
});
