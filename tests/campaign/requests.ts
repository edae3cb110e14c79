import type { OpenApiDocument } from "../../server/openapi/document.ts";
import type { Schema } from "../../server/openapi/schema-html.ts";
import { judgeBy } from "../server/openapi/conforms.ts";
import { chanceFrom, type Chance } from "./chance.ts";
import { HOSTILE_TEXTS, hostileValue, nearly, valueOf } from "./values.ts";

/** What was asked and found. */
export interface RequestCounts {
  readonly requests: number;
  /** Answers by the hundred of their status. */
  readonly answers: Readonly<Record<string, number>>;
  readonly slowestMs: number;
  /** Operations that were answered with success at least once, of all. */
  readonly succeeded: number;
  readonly operations: number;
  /** What is not as the document says, took too long, or was a fault of the server; a sentence each. */
  readonly failures: readonly string[];
}

interface Parameter {
  readonly in: "path" | "query" | "header";
  readonly name: string;
  readonly required?: boolean;
  readonly schema: Schema;
}
interface Asked {
  readonly method: string;
  readonly path: string;
  readonly parameters: readonly Parameter[];
  readonly body: readonly [type: string, schema: Schema] | null;
}

/** A file for a route that takes one. */
export interface SentFile {
  readonly name: string;
  readonly bytes: Uint8Array;
}

/** Milliseconds that an answer may take, on a machine that does other things too. */
const LONGEST = 30_000;
/** Milliseconds that a stream of events is read. */
const STREAM = 200;
const AT_ONCE = 4;
/** A description of a survey and the log that it names. */
const SURVEY: ReadonlySet<string> = new Set(["survey.json", "pasteuriser-72.csv"]);
const METHODS = ["get", "post", "put", "delete"] as const;

/**
 * Asks a server what its document allows, what it almost allows and what it does not, and holds each answer against the
 * document: a status and a schema that it has, no fault of the server, and within a time.
 *
 * @param files bytes to send where a route takes a file: an example that is right, of which some are changed
 */
export async function requestCampaign(
  url: string,
  count: number,
  seed: number,
  files: readonly SentFile[],
  tell: (line: string) => void = () => undefined,
): Promise<RequestCounts> {
  const document = (await (await fetch(new URL("api/openapi.json", url))).json()) as OpenApiDocument;
  const judge = judgeBy(document);
  const schemas = (document.components?.schemas ?? {}) as Readonly<Record<string, Schema>>;
  const operations = operationsOf(document);
  const chance = chanceFrom(seed);
  const known = await knownTo(url);
  const answers: Record<string, number> = {};
  const succeeded = new Set<string>();
  const failures: string[] = [];
  let slowestMs = 0;
  let made = 0;

  const one = async (n: number): Promise<void> => {
    const asked = chance.pick(operations);
    // What is asked is settled before the first wait: it depends on the seed alone, and on ids that the server gave.
    const { path, init, words } = requestOf(asked, schemas, chance, known, files);
    const began = performance.now();
    const named = `request ${n}, ${asked.method} ${path.slice(0, 300)} ${words}`;
    try {
      const came = await answerTo(new URL(path, url), init);
      const took = performance.now() - began;
      slowestMs = Math.max(slowestMs, took);
      const kind = `${Math.floor(came.status / 100)}xx`;
      answers[kind] = (answers[kind] ?? 0) + 1;
      if (came.status < 300) succeeded.add(`${asked.method} ${asked.path}`);
      if (came.status < 300) known.learn(asked, came.text);
      const found = judge({ ...came, method: asked.method, path: asked.path });
      if (came.status === 500) failures.push(`${named}: 500 ${came.text.slice(0, 300)}`);
      for (const fault of found) failures.push(`${named}: ${fault}`);
      if (took > LONGEST) failures.push(`${named}: answered after ${Math.round(took)} ms`);
    } catch (error) {
      failures.push(
        `${named}: ${error instanceof Error ? `${error.message} ${String(error.cause ?? "")}` : String(error)}`,
      );
    }
    if (n % 500 === 0) tell(`${n} requests, ${failures.length} failures`);
  };
  const lane = async (): Promise<void> => {
    while (made < count) await one(++made);
  };
  await Promise.all(Array.from({ length: AT_ONCE }, lane));
  return {
    requests: made,
    answers,
    slowestMs: Math.round(slowestMs),
    succeeded: succeeded.size,
    operations: operations.length,
    failures,
  };
}

const operationsOf = (document: OpenApiDocument): readonly Asked[] =>
  Object.entries(document.paths ?? {}).flatMap(([path, item]) =>
    METHODS.flatMap((method): Asked[] => {
      const operation = item[method];
      if (operation === undefined) return [];
      const content = (operation.requestBody as { content?: Readonly<Record<string, { schema?: Schema }>> } | undefined)
        ?.content;
      const [type, body] = Object.entries(content ?? {})[0] ?? [];
      return [
        {
          method,
          path,
          parameters: (operation.parameters ?? []) as unknown as readonly Parameter[],
          body: type === undefined ? null : [type, body?.schema ?? {}],
        },
      ];
    }),
  );

/** What a stranger has learned of a server: ids and documents that its answers had. */
interface Known {
  readonly ids: Record<string, string[]>;
  readonly studies: readonly unknown[];
  learn(asked: Asked, text: string): void;
}

async function knownTo(url: string): Promise<Known> {
  const read = async (path: string): Promise<unknown> => (await fetch(new URL(path, url))).json();
  const listed = (await read("api/studies")) as readonly { readonly id: string }[];
  const models = (await read("api/models")) as readonly { readonly id: string }[];
  const templates = (await read("api/templates")) as readonly { readonly files: readonly string[] }[];
  const surveys = (await read("api/surveys")) as readonly { readonly id: string }[];
  const chosen = listed.filter(({ id }) => /published|verdicts/.test(id)).slice(0, 6);
  const studies = await Promise.all(chosen.map(({ id }) => read(`api/studies/${id}`)));
  const ids: Record<string, string[]> = {
    group: listed.map(({ id }) => id.split("/")[0]!),
    name: [...listed.map(({ id }) => id.split("/")[1]!), "y"],
    code: ["bad-input", "internal"],
    models: models.map(({ id }) => id),
    surveys: surveys.map(({ id }) => id),
    runs: [],
    drafts: ["draft-0001", "draft-0002"],
    file: templates.flatMap(({ files }) => files),
  };
  return {
    ids,
    studies,
    learn({ method, path }, text) {
      const kind = path.split("/")[2]!;
      if (method === "post" && path === "/api/runs") ids["runs"]!.push((JSON.parse(text) as { id: string }).id);
      // What a list has may be asked for by its id.
      if (method !== "get" || path !== `/api/${kind}` || !text.startsWith("[")) return;
      const found = (JSON.parse(text) as readonly { readonly id?: string }[]).flatMap(({ id }) => id ?? []);
      if (found.length > 0) ids[kind] = found.slice(0, 40);
    },
  };
}

/** Values of a parameter that exist, if any are known. */
const existing = ({ path }: Asked, name: string, { ids }: Known): readonly string[] =>
  path === "/api/budget-tables" && name === "name"
    ? ["budget.csv", "budget.xlsx"]
    : name === "id"
      ? (ids[path.split("/")[2]!.replace("kept-runs", "runs")] ?? [])
      : (ids[name] ?? []);

interface Request {
  readonly path: string;
  readonly init: RequestInit;
  /** The body in short, for a failure. */
  readonly words: string;
}

function requestOf(
  asked: Asked,
  schemas: Readonly<Record<string, Schema>>,
  chance: Chance,
  known: Known,
  files: readonly SentFile[],
): Request {
  let path = asked.path.slice(1);
  const query = new URLSearchParams();
  const headers: Record<string, string> = {};
  for (const parameter of asked.parameters) {
    const text = textOf(parameter, asked, schemas, chance, known);
    if (parameter.in === "path") path = path.replace(`{${parameter.name}}`, encoded(text, chance));
    else if (parameter.required !== true && chance.often(0.4)) continue;
    else if (parameter.in === "query") query.append(parameter.name, text);
    else if (/^[\x20-\x7e]{1,200}$/.test(text)) headers[parameter.name] = text;
  }
  if (chance.often(0.05)) query.append(chance.pick(HOSTILE_TEXTS), "1");
  let { body, type } = bodyOf(asked, schemas, chance, known, files);
  if (asked.method === "post" && asked.path === "/api/surveys" && chance.often(0.5)) {
    // Files one after the other, with a name and a size for each: no schema of a query says that they go together.
    for (const name of ["name", "size"]) query.delete(name);
    const sent = files.filter(({ name }) => SURVEY.has(name));
    for (const { name, bytes } of sent) {
      query.append("name", name);
      query.append("size", String(bytes.length));
    }
    body = Buffer.concat(sent.map(({ bytes }) => bytes));
  }
  if (type !== null) headers["content-type"] = type;
  const asText = typeof body === "string" ? body.slice(0, 300) : body === undefined ? "" : `${body.length} bytes`;
  const searched = query.size === 0 ? "" : `?${query.toString()}`;
  return {
    path: path + searched,
    words: asText,
    init: { method: asked.method.toUpperCase(), headers, ...(body === undefined ? {} : { body: body as BodyInit }) },
  };
}

/** Halves of characters become the sign for what is none: they have no encoding in an address. */
const wellFormed = (text: string): string => Buffer.from(text).toString();

/** As a part of a path. An address of dots alone would be taken for a folder before it is sent. */
function encoded(text: string, chance: Chance): string {
  if (/^\.{0,2}$/.test(text)) return "%20";
  if (chance.often(0.02)) return "%";
  return encodeURIComponent(wellFormed(text)).slice(0, 3000);
}

function textOf(
  parameter: Parameter,
  asked: Asked,
  schemas: Readonly<Record<string, Schema>>,
  chance: Chance,
  known: Known,
): string {
  const there = existing(asked, parameter.name, known);
  if (there.length > 0 && chance.often(0.75)) return chance.pick(there);
  if (parameter.in === "header" && chance.often(0.5)) return chance.pick(['"1"', "*", "end", "0", "20000"]);
  if (chance.often(0.5)) return wellFormed(String(valueOf(parameter.schema, schemas, chance)));
  return wellFormed(String(hostileValue(chance)));
}

const TYPES = [
  "text/plain",
  "application/x-www-form-urlencoded",
  "application/json; charset=latin1",
  "application/xml",
  "x",
];

function bodyOf(
  { method, path, body }: Asked,
  schemas: Readonly<Record<string, Schema>>,
  chance: Chance,
  { studies }: Known,
  files: readonly SentFile[],
): { readonly body: string | Uint8Array | undefined; readonly type: string | null } {
  if (method === "get") return { body: undefined, type: null };
  if (body === null)
    return chance.often(0.9) ? { body: undefined, type: null } : { body: "{}", type: "application/json" };
  const type = chance.often(0.03) ? chance.pick(TYPES) : body[0];
  if (body[0] !== "application/json") return { body: fileOf(chance, files), type };
  let value = valueOf(body[1], schemas, chance);
  if (chance.often(0.6) && typeof value === "object" && value !== null && "study" in value)
    value = {
      ...value,
      study: chance.pick(studies),
      ...(path === "/api/runs" ? { trials: 5000 * chance.below(8) } : {}),
    };
  if (chance.often(0.6)) value = nearly(value, chance);
  const text = JSON.stringify(value) ?? "";
  if (chance.often(0.05)) return { body: text.slice(0, chance.below(text.length + 1)), type };
  if (chance.often(0.01)) return { body: "[".repeat(2000), type };
  return { body: text, type };
}

function fileOf(chance: Chance, files: readonly SentFile[]): Uint8Array {
  const bytes = Uint8Array.from(chance.pick(files).bytes);
  for (let i = chance.below(4); i > 0 && bytes.length > 0; i--) bytes[chance.below(bytes.length)] = chance.below(256);
  return chance.often(0.2) ? bytes.slice(0, chance.below(bytes.length + 1)) : bytes;
}

/** An answer whole, or of a stream of events what comes in a moment. @throws {Error} no answer in time */
async function answerTo(
  url: URL,
  init: RequestInit,
): Promise<{ readonly status: number; readonly headers: Headers; readonly text: string }> {
  const stop = new AbortController();
  const late = setTimeout(() => stop.abort(), 2 * LONGEST);
  let leaving: NodeJS.Timeout | undefined;
  let left = false;
  try {
    const { status, headers, body } = await fetch(url, { ...init, signal: stop.signal, redirect: "manual" });
    const leave = (): void => {
      left = true;
      stop.abort();
    };
    if (headers.get("content-type")?.startsWith("text/event-stream")) leaving = setTimeout(leave, STREAM);
    const decoder = new TextDecoder();
    let text = "";
    try {
      for await (const chunk of body ?? []) text += decoder.decode(chunk as Uint8Array, { stream: true });
    } catch (error) {
      if (!left) throw error;
    }
    return { status, headers, text };
  } finally {
    clearTimeout(late);
    clearTimeout(leaving);
  }
}
