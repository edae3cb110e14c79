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
  if (terminal.input.isTTY !== true) return firstLine(terminal.input);
  const [first, second] = await hidden([`Password of ${name}: `, "The same again: "], terminal);
  if (first !== second) throw passwordRefused("two that differ", "the same password twice");
  return first!;
}

const usual = (): Terminal => ({ input: process.stdin, output: process.stderr });

/** Asks one question after the other and reads a line for each; what is typed goes nowhere. */
function hidden(questions: readonly string[], { input, output }: Terminal): Promise<string[]> {
  return new Promise((resolve, reject) => {
    const nowhere = new Writable({ write: (_chunk, _encoding, done) => done() });
    // One for all questions: what was typed or pasted ahead is not lost between two.
    const lines = createInterface({ input, output: nowhere, terminal: true });
    const answers: string[] = [];
    const end = (settle: () => void): void => {
      settle();
      lines.close();
    };
    output.write(questions[0]!);
    lines.on("line", (line) => {
      output.write("\n");
      answers.push(line);
      if (answers.length < questions.length) output.write(questions[answers.length]!);
      else end(() => resolve(answers));
    });
    lines.once("SIGINT", () => {
      output.write("\n");
      end(() => reject(new Fault("cancelled", "Nothing was changed.")));
    });
    // Settles nothing if an answer came before.
    lines.once("close", () => reject(passwordRefused("the end of the input", "a password")));
  });
}

async function firstLine(input: NodeJS.ReadableStream): Promise<string> {
  let text = "";
  for await (const chunk of input) text += String(chunk);
  const [line = ""] = text.split(/\r?\n/, 1);
  if (line === "") throw passwordRefused("nothing", "a password as the first line of the input");
  return line;
}
