// Assembles a kernel's text into a module of its bytes: npm run kernel
import { readFileSync, writeFileSync } from "node:fs";
import { basename } from "node:path";
import openWabt from "wabt";

/** The text of the module of bytes that belongs to the source of a kernel. @param name the source's file, `….wat` */
export async function kernelModule(name: string, source: string): Promise<string> {
  const wabt = await openWabt();
  const module = wabt.parseWat(name, source, { simd: true });
  module.validate();
  const hex = Buffer.from(module.toBinary({}).buffer).toString("hex");
  const lines = hex.match(/.{1,116}/g)!.map((line) => `  "${line}",`);
  const constant = `${basename(name, ".wat").toUpperCase()}_BYTES`;
  return `// Made from ${name} by \`npm run kernel\`; a test checks that they agree.\n\n/** The WebAssembly module, in hexadecimal. */\nexport const ${constant} = [\n${lines.join("\n")}\n].join("");\n`;
}

for (const source of process.argv.slice(2).filter((word) => word.endsWith(".wat")))
  writeFileSync(
    source.replace(/\.wat$/, "-bytes.ts"),
    await kernelModule(basename(source), readFileSync(source, "utf8")),
  );
