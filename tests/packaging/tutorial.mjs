// Follows the tutorial of examples/library/README.md to the letter, in an empty folder, with the packed tarball: every
// block that names a file is written, every command is run, and what it prints must be what the tutorial says.
import { execFileSync } from "node:child_process";
import { readFileSync, writeFileSync } from "node:fs";
import { join } from "node:path";

/** The blocks of the tutorial, in order. */
export function blocksOf(text) {
  const tutorial = text.slice(text.indexOf("## Tutorial"), text.indexOf("## Cookbook"));
  return [...tutorial.matchAll(/^```(\w+)(?: file=(\S+))?\n([\s\S]*?)^```$/gm)].map(([, kind, file, body]) => ({
    kind,
    file,
    body,
  }));
}

/** @returns how many files and commands there were. @throws {Error} a command that fails or prints something else */
export function followTutorial(root, folder, tarball) {
  const blocks = blocksOf(readFileSync(join(root, "examples/library/README.md"), "utf8"));
  let printed = "";
  let commands = 0;
  for (const { kind, file, body } of blocks) {
    if (file !== undefined) writeFileSync(join(folder, file), body);
    else if (kind === "sh") {
      printed = "";
      for (const line of body.trim().split("\n")) {
        const command = line.replace("TARBALL", tarball);
        const env = {
          ...process.env,
          npm_config_audit: "false",
          npm_config_fund: "false",
          npm_config_prefer_offline: "true",
          NO_COLOR: "1",
        };
        printed += execFileSync("sh", ["-c", command], {
          cwd: folder,
          encoding: "utf8",
          env,
          stdio: ["ignore", "pipe", "pipe"],
        });
        commands += 1;
      }
    } else if (kind === "text" && printed.trim() !== body.trim())
      throw new Error(`the tutorial says\n${body}\nbut its commands print\n${printed}`);
  }
  const files = blocks.filter(({ file }) => file !== undefined).length;
  const answers = blocks.filter(({ kind }) => kind === "text").length;
  if (files < 6 || commands < 10 || answers < 3) throw new Error("the tutorial has lost its blocks");
  return `${files} files, ${commands} commands, ${answers} answers`;
}
