import { createInterface } from "node:readline";
import { Writable } from "node:stream";
import { passwordRefused } from "../access/password.ts";
import { Fault } from "../errors.ts";

/** Where a password is typed and where its question stands. */
export interface Terminal {
  readonly input: NodeJS.ReadableStream & { readonly isTTY?: boolean };
  readonly output: NodeJS.WritableStream;
}

/**
 * A new password: typed twice at a terminal, where it is not shown; otherwise the first line of the input.
 *
 * @throws {Fault} `bad-input`: two that differ, or none; `cancelled`: Ctrl+C
 */
export async function askPassword(name: string, terminal: Terminal = usual()): Promise<string> {
  const { input } = terminal;
  if (input.isTTY !== true) return firstLine(input);
  const first = await hidden(`Password of ${name}: `, terminal);
  const second = await hidden("The same again: ", terminal);
  if (first !== second) throw passwordRefused("two that differ", "the same password twice");
  return first;
}

const usual = (): Terminal => ({ input: process.stdin, output: process.stderr });

/** Asks and reads a line; what is typed goes nowhere. */
function hidden(question: string, { input, output }: Terminal): Promise<string> {
  return new Promise((resolve, reject) => {
    const nowhere = new Writable({ write: (_chunk, _encoding, done) => done() });
    const lines = createInterface({ input, output: nowhere, terminal: true });
    let answered = false;
    output.write(question);
    const end = (): void => {
      answered = true;
      lines.close();
      output.write("\n");
    };
    lines.once("line", (line) => {
      end();
      resolve(line);
    });
    lines.once("SIGINT", () => {
      end();
      reject(new Fault("cancelled", "Nothing was changed."));
    });
    lines.once("close", () => {
      if (!answered) reject(passwordRefused("the end of the input", "a password"));
    });
  });
}

async function firstLine(input: NodeJS.ReadableStream): Promise<string> {
  let text = "";
  for await (const chunk of input) text += String(chunk);
  const [line = ""] = text.split(/\r?\n/, 1);
  if (line === "") throw passwordRefused("nothing", "a password as the first line of the input");
  return line;
}
