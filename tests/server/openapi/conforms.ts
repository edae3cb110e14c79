import { Ajv2020, type ValidateFunction } from "ajv/dist/2020.js";
import formats from "ajv-formats";
import type { OpenApiDocument } from "../../../server/openapi/document.ts";

/** An answer as it came. */
export interface Came {
  readonly method: string;
  /** Path as the document has it, with its parameters in braces. */
  readonly path: string;
  readonly status: number;
  readonly headers: { get(name: string): string | null };
  readonly text: string;
}

interface Described {
  readonly headers?: Readonly<Record<string, { readonly $ref?: string; readonly required?: boolean }>>;
  readonly content?: Readonly<
    Record<string, { readonly schema?: object; readonly "x-event"?: { readonly $ref: string } }>
  >;
}

/** An event stream that was cut ends within an event; what came whole is judged. */
const eventsIn = (text: string): unknown[] =>
  text
    .slice(0, text.lastIndexOf("\n\n") + 1)
    .split("\n")
    .filter((line) => line.startsWith("data: "))
    .map((line) => JSON.parse(line.slice("data: ".length)) as unknown);

/**
 * Holds answers against a document: what is not as it says, a sentence each. JSON Schema is judged by Ajv, which knows
 * nothing of Trialband.
 */
export function judgeBy(document: OpenApiDocument): (came: Came) => readonly string[] {
  const ajv = new Ajv2020({ strict: false, validateFormats: true, inlineRefs: false, code: { optimize: false } });
  (formats as unknown as (ajv: Ajv2020) => void)(ajv);
  ajv.addSchema(document, "api");
  const compiled = new Map<string, ValidateFunction>();
  const wrong = (at: string, value: unknown): string[] => {
    let validate = compiled.get(at);
    if (validate === undefined) {
      validate = ajv.compile({ $ref: at });
      compiled.set(at, validate);
    }
    if (validate(value)) return [];
    return (validate.errors ?? []).slice(0, 3).map(({ instancePath, message }) => `${instancePath} ${message ?? ""}`);
  };
  const pointer = (...parts: readonly string[]): string =>
    `api#/${parts.map((part) => encodeURIComponent(part.replaceAll("~", "~0").replaceAll("/", "~1"))).join("/")}`;

  return ({ method, path, status, headers, text }) => {
    const named = `${method} ${path} ${status}`;
    const operation = document.paths?.[path]?.[method as "get"];
    const answer = operation?.responses?.[String(status) as "200"] as Described | undefined;
    if (answer === undefined) return [`${named} is not in the document: ${text.slice(0, 200)}`];
    const found: string[] = [];
    for (const [name, header] of Object.entries(answer.headers ?? {})) {
      const common = header.$ref === undefined ? header : document.components?.headers?.[name];
      if ((common as { required?: boolean } | undefined)?.required === true && headers.get(name) === null)
        found.push(`${named} lacks the header ${name}`);
    }
    if (answer.content === undefined)
      return text === "" ? found : [...found, `${named} has a body: ${text.slice(0, 80)}`];
    const type = headers.get("content-type")?.split(";")[0] ?? "nothing";
    const content = answer.content[type];
    if (content === undefined) return [...found, `${named} comes as ${type}`];
    const event = content["x-event"];
    const bad =
      event !== undefined
        ? eventsIn(text).flatMap((data) => wrong(`api${event.$ref}`, data))
        : type.endsWith("json")
          ? wrong(
              pointer("paths", path, method, "responses", String(status), "content", type, "schema"),
              JSON.parse(text),
            )
          : [];
    return [...found, ...bad.map((words) => `${named}: ${words}`)];
  };
}
