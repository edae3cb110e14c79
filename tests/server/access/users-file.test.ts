import { chmodSync, existsSync, mkdirSync, readdirSync, readFileSync, statSync, writeFileSync } from "node:fs";
import { dirname } from "node:path";
import { afterAll, describe, expect, test } from "vitest";
import { readToken } from "../../../server/access/token.ts";
import { hashPassword, isPassword, requireFit } from "../../../server/access/password.ts";
import { changeUsers, currentUsers, readUsers, requireName } from "../../../server/access/users-file.ts";
import { CHEAP, PASSWORD, secretFolder, setUser, TOKEN, usersFile } from "./people.ts";

const folder = secretFolder();
afterAll(() => folder.drop());

describe("a file of users", () => {
  test("is its owner's alone, whatever the umask, and holds no password", async () => {
    const before = process.umask(0);
    const file = await usersFile();
    process.umask(before);
    expect(statSync(file).mode & 0o777).toBe(0o600);
    expect(readFileSync(file, "utf8")).not.toContain(PASSWORD);
    const [ada, egon] = readUsers(file);
    expect(ada).toMatchObject({ name: "ada", role: "administer", password: { scrypt: CHEAP } });
    expect(ada!.password.salt).not.toBe(egon!.password.salt);
    expect(Buffer.from(ada!.password.salt, "base64")).toHaveLength(16);
  });

  test.each([0o640, 0o604, 0o602, 0o660])("that others may read or change (%o) is refused", async (mode) => {
    const file = await usersFile();
    chmodSync(file, mode);
    expect(() => readUsers(file)).toThrow(
      expect.objectContaining({ problems: [expect.objectContaining({ value: `rights ${mode.toString(8)}` })] }),
    );
  });

  const user = { name: "ada", role: "read", password: { scrypt: CHEAP, salt: "A".repeat(24), hash: "A".repeat(44) } };
  test.each<[string, unknown, string]>([
    ["another format", { format: "x", users: [] }, "format"],
    ["a field that is none", { format: "trialband-users/1", users: [], more: 1 }, ""],
    ["a role that is none", { format: "trialband-users/1", users: [{ ...user, role: "owner" }] }, "users.0.role"],
    ["a name twice", { format: "trialband-users/1", users: [user, { ...user, name: "ADA" }] }, "users"],
    ["the token's name", { format: "trialband-users/1", users: [{ ...user, name: "Token" }] }, "users.0.name"],
    [
      "parameters that take all memory",
      {
        format: "trialband-users/1",
        users: [{ ...user, password: { ...user.password, scrypt: { N: 2 ** 30, r: 8, p: 1 } } }],
      },
      "users.0.password.scrypt",
    ],
    [
      "a hash cut short",
      { format: "trialband-users/1", users: [{ ...user, password: { ...user.password, hash: "AAAA" } }] },
      "users.0.password.hash",
    ],
  ])("with %s is refused with its place", (name, content, place) => {
    const file = folder.write(`${name}.json`, JSON.stringify(content));
    expect(() => readUsers(file)).toThrow(
      expect.objectContaining({ problems: expect.arrayContaining([expect.objectContaining({ place })]) }),
    );
  });

  test("that is broken, missing or a folder is refused with its name", () => {
    const broken = folder.write("broken.json", '{"format":');
    mkdirSync(folder.path("folder.json"));
    expect(() => readUsers(broken)).toThrow(`${broken} is not JSON (line 1, column 11)`);
    expect(() => readUsers(folder.path("none.json"))).toThrow("none.json cannot be read");
    expect(() => readUsers(folder.path("folder.json"))).toThrow(expect.objectContaining({ code: "bad-input" }));
    const empty = folder.write("empty.json", '{"format":"trialband-users/1","users":[]}');
    expect(() => currentUsers(empty, () => undefined)).toThrow("has no users");
  });

  test("two changes at once cannot undo each other, and a failed one leaves it as it was", async () => {
    const file = await usersFile();
    const before = readFileSync(file, "utf8");
    expect(() =>
      changeUsers(file, () => {
        changeUsers(file, (all) => all);
        return [];
      }),
    ).toThrow("is being changed by another command");
    expect(readFileSync(file, "utf8")).toBe(before);
    expect(existsSync(`${file}.part`)).toBe(false);
    writeFileSync(`${file}.part`, "");
    expect(() => changeUsers(file, () => [])).toThrow(`remove ${file}.part`);
    expect(readdirSync(dirname(file)).length).toBe(2);
  });
});

describe("names", () => {
  test.each(["ada", "Ada Lörrach", "a", "x.y_z@lab-3", "李", "e\u0301a"])("%s is one", (name) => {
    expect(requireName(` ${name} `)).toBe(name.normalize("NFC"));
  });
  test.each(["", " ", "-a", "a.", "a\nb", "a\0", "<b>", "token", "TOKEN", "x".repeat(65), "a\u202eb"])(
    "%j is none",
    (name) => {
      expect(() => requireName(name)).toThrow(expect.objectContaining({ code: "bad-input" }));
    },
  );
});

describe("passwords", () => {
  /** RFC 7914, 12: the third test vector of scrypt, its first 32 bytes (the derived key is made block by block). */
  test("are hashed as the standard says", async () => {
    const hash = "7023bdcb3afd7348461c06cd81fd38ebfda8fbba904f8e3ea9b543f6545da1f2";
    const kept = {
      scrypt: { N: 16384, r: 8, p: 1 },
      salt: Buffer.from("SodiumChloride").toString("base64"),
      hash: Buffer.from(hash, "hex").toString("base64"),
    };
    expect(await isPassword("pleaseletmein", kept)).toBe(true);
    expect(await isPassword("pleaseletmeIn", kept)).toBe(false);
  });

  test("typed on another keyboard are the same", async () => {
    const kept = await hashPassword("na\u00efve caf\u00e9 bath", CHEAP);
    expect(await isPassword("nai\u0308ve cafe\u0301 bath", kept)).toBe(true);
  });

  test("take the usual parameters, which are kept with them", async () => {
    expect((await hashPassword(PASSWORD)).scrypt).toEqual({ N: 32768, r: 8, p: 3 });
  });

  test.each([
    ["eleven char", "11 characters"],
    ["x".repeat(201), "201 characters"],
    ["Anna Lörrach", "the name"],
    ["with a\ttab inside", "a control character"],
  ])("%j is refused without being said", (password, value) => {
    expect(() => requireFit(password, "anna lörrach")).toThrow(
      expect.objectContaining({ problems: [expect.objectContaining({ place: "the password", value })] }),
    );
  });
});

describe("a token", () => {
  test("comes from a file, or from the environment, where no other process finds it", () => {
    const file = folder.write("token", `${TOKEN}\n`);
    const environment = { TRIALBAND_TOKEN: "b".repeat(40), OTHER: "x" };
    expect(readToken(file, environment)).toBe(TOKEN);
    expect(environment).toEqual({ OTHER: "x" });
    expect(readToken(undefined, { TRIALBAND_TOKEN: "b".repeat(40) })).toBe("b".repeat(40));
    expect(readToken(undefined, {})).toBeNull();
  });

  test.each(["short", `${TOKEN}é`, `${TOKEN} ${TOKEN}`, ""])("%j is refused without being said", (text) => {
    const file = folder.write("bad-token", text);
    let said = "";
    try {
      readToken(file, {});
    } catch (error) {
      said = JSON.stringify(error) + String(error);
    }
    expect(said).toContain("at least 32 of");
    if (text !== "") expect(said).not.toContain(text);
  });

  test("of a file that others may read is refused", () => {
    chmodSync(folder.write("open-token", TOKEN), 0o644);
    expect(() => readToken(folder.path("open-token"), {})).toThrow(expect.objectContaining({ code: "bad-input" }));
  });
});

test("a change of the file is seen by the next look", async () => {
  const file = await usersFile();
  const users = currentUsers(file, () => undefined);
  expect(users.all()).toHaveLength(3);
  await setUser(file, "new", "read");
  expect(users.all()).toHaveLength(4);
});
