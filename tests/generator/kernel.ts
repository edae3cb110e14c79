// Assembles engine/random/kernel/kernel.wat into kernel-bytes.ts: npm run kernel
import { readFileSync, writeFileSync } from "node:fs";
import openWabt from "wabt";

/** The text of kernel-bytes.ts that belongs to this source of the kernel. */
export async function kernelModule(source: string): Promise<string> {
  const wabt = await openWabt();
  const module = wabt.parseWat("kernel.wat", source, { simd: true });
  module.validate();
  const hex = Buffer.from(module.toBinary({}).buffer).toString("hex");
  const lines = hex.match(/.{1,116}/g)!.map((line) => `  "${line}",`);
  return `// Made from kernel.wat by \`npm run kernel\`; a test checks that they agree.\n\n/** The kernel's WebAssembly module, in hexadecimal. */\nexport const KERNEL_BYTES = [\n${lines.join("\n")}\n].join("");\n`;
}

const [source, target] = process.argv.slice(2);
if (source?.endsWith(".wat") && target !== undefined)
  writeFileSync(target, await kernelModule(readFileSync(source, "utf8")));
