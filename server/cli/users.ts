import { resolve } from "node:path";
import { Option, type Command } from "commander";
import { hashPassword, requireFit } from "../access/password.ts";
import { changeUsers, readOrNone, readUsers, requireName, type User } from "../access/users-file.ts";
import { Fault, refused } from "../errors.ts";
import { ROLES, type Role } from "../../viewer/api/access.ts";
import { askPassword } from "./ask-password.ts";
import type { CommandRegistration } from "./command.ts";
import { print } from "./print.ts";

interface UsersFlags {
  readonly users: string;
}

export const users: CommandRegistration = (program) => {
  const command = program
    .command("users")
    .summary("keep the file of the people who may sign in to a server")
    .description(
      "Keeps the file that trialband serve --users takes: names, roles, and passwords as scrypt hashes. A server that goes on sees a change at once: who was removed, or has another password, is signed out.",
    );
  const sub = (name: string): Command =>
    command
      .command(name)
      .exitOverride()
      .addOption(new Option("--users <file>", "the file of users").env("TRIALBAND_USERS").makeOptionMandatory());
  const typed =
    "The password is asked for twice and not shown; without a terminal it is the first line of the standard input.";

  sub("add")
    .argument("<name>", "the name to sign in with, which the audit trail carries")
    .addOption(
      new Option("--role <role>", "read; run and note too (run); remove and put back too (administer)")
        .choices(ROLES)
        .default("run"),
    )
    .description(`Adds a person, and makes the file if there is none. ${typed}`)
    .action(async (given: string, { users: file, role }: UsersFlags & { readonly role: Role }) => {
      const path = resolve(file);
      const name = requireName(given);
      // Before anyone types a password for nothing.
      requireNew(readOrNone(path), name);
      const password = await newPassword(name);
      changeUsers(path, (all) => {
        requireNew(all, name);
        return [...all, { name, role, password }];
      });
      print(`${name} can sign in with the role ${role}.\n`);
    });

  sub("password")
    .argument("<name>", "whose password")
    .description(`Gives a person another password. Their sessions end. ${typed}`)
    .action(async (given: string, { users: file }: UsersFlags) => {
      const path = resolve(file);
      const { name } = known(readUsers(path), given);
      const password = await newPassword(name);
      changeUsers(path, (all) => {
        known(all, name);
        return all.map((user) => (user.name === name ? { ...user, password } : user));
      });
      print(`${name} has another password.\n`);
    });

  sub("role")
    .argument("<name>", "whose role")
    .addOption(new Option("--role <role>", "the new one").choices(ROLES).makeOptionMandatory())
    .description("Gives a person another role, which holds from their next request on.")
    .action((given: string, { users: file, role }: UsersFlags & { readonly role: Role }) => {
      changeUsers(resolve(file), (all) => {
        const { name } = known(all, given);
        return all.map((user) => (user.name === name ? { ...user, role } : user));
      });
      print(`${given} has the role ${role}.\n`);
    });

  sub("remove")
    .argument("<name>", "who is removed")
    .description("Removes a person. Their sessions end; what the audit trail says of them stays.")
    .action((given: string, { users: file }: UsersFlags) => {
      changeUsers(resolve(file), (all) => {
        const { name } = known(all, given);
        return all.filter((user) => user.name !== name);
      });
      print(`${given} can no longer sign in.\n`);
    });

  sub("list")
    .description("Lists names and roles.")
    .option("--json", "print them as JSON")
    .action(({ users: file, json }: UsersFlags & { readonly json?: boolean }) => {
      const all = readUsers(resolve(file)).map(({ name, role }) => ({ name, role }));
      if (json === true) process.stdout.write(`${JSON.stringify(all, null, 2)}\n`);
      else
        print(all.length === 0 ? "No users.\n" : all.map(({ name, role }) => `${role.padEnd(11)}${name}\n`).join(""));
    });
};

async function newPassword(name: string): Promise<User["password"]> {
  const password = await askPassword(name);
  requireFit(password, name);
  return hashPassword(password);
}

function requireNew(all: readonly User[], name: string): void {
  const found = all.find((user) => user.name.toLowerCase() === name.toLowerCase());
  if (found !== undefined) throw refused("name", found.name, "a name that nobody has yet");
}

function known(all: readonly User[], given: string): User {
  const name = requireName(given);
  const found = all.find((user) => user.name === name);
  if (found === undefined) throw new Fault("no-such-user", `There is no user ${name}.`);
  return found;
}
