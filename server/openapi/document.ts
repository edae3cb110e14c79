import { createDocument, type oas31, type ZodOpenApiObject, type ZodOpenApiOverride } from "zod-openapi";
import { VERSION } from "../../engine/index.ts";
import { studySchema } from "../../engine/internal.ts";
import { shownRecordSchema } from "../../engine/record/index.ts";
import { securitySchemes } from "../access/schemes.ts";
import { FAULTS, type FaultCode } from "../errors.ts";
import { contentsOf, type Answer, type Content, type Operation } from "./described.ts";
import { faultsOf, nameOf, refusals } from "./faults.ts";

export type OpenApiDocument = oas31.OpenAPIObject;

const DESCRIPTION = [
  "Trialband propagates the distributions of a study by Monte Carlo (JCGM 101), sets the result beside the linear budget and says whether that budget is validated, and why.",
  "A run is started with POST /api/runs. It goes on in the server; GET /api/runs/{id}/events follows it, GET /api/runs/{id} has its record once it is finished.",
  "A request that is refused is answered with problem details (RFC 9457), whose problems have every place that cannot be used, what stands there and what is accepted. 429 and 503 say in Retry-After when another try is worth while.",
].join("\n\n");

/** Headers of answers, and what each is. */
const HEADERS: Readonly<Record<string, string>> = {
  "X-Request-Id": "Id of this request, as in the server's log.",
  ETag: "What identifies this content: sent back in If-None-Match, it is answered with 304 while nothing changed.",
  "Retry-After": "Seconds after which another try is worth while.",
};

/**
 * The interface as an OpenAPI document, version 3.1. Studies, records and the bodies of the interface come from the
 * definitions that the checks and the types come from.
 *
 * @param secure whether the server is reached over TLS: the name of the session's cookie depends on it
 */
export function documentOf(operations: readonly Operation[], secure = false): OpenApiDocument {
  const paths: Record<string, Record<string, object>> = {};
  for (const operation of operations) {
    const path = operation.path.replaceAll(/:(\w+)/g, "{$1}");
    (paths[path] ??= {})[operation.method] = describe(operation);
  }
  const tags = [...new Set(operations.map(({ path }) => tagOf(path)))].map((name) => ({ name }));
  const described = {
    openapi: "3.1.1",
    info: {
      title: "Trialband",
      version: VERSION,
      description: DESCRIPTION,
      license: { name: "MIT", identifier: "MIT" },
    },
    servers: [{ url: "/" }],
    tags,
    security: [{ token: [] }, { session: [] }],
    paths,
    components: {
      schemas: {
        Study: studySchema.meta({ title: "Trialband study", unusedIO: "input" }),
        Record: shownRecordSchema,
        ...Object.fromEntries(refusals()),
        ...Object.fromEntries(
          operations.flatMap(({ described: { answers } }) => Object.values(answers).flatMap(eventsOf)),
        ),
      },
      headers: Object.fromEntries(
        Object.entries(HEADERS).map(([name, description]) => [
          name,
          { description, required: true, schema: { type: "string" } },
        ]),
      ),
      securitySchemes: securitySchemes(secure),
      responses: {},
    },
  } as unknown as ZodOpenApiObject;
  return tidied(createDocument(described, { outputIdSuffix: FILLED, override: withoutTheObvious }));
}

/** No limit is stated that every whole number of JavaScript has. */
const withoutTheObvious: ZodOpenApiOverride = ({ jsonSchema }) => {
  if (jsonSchema.minimum === Number.MIN_SAFE_INTEGER) delete jsonSchema.minimum;
  if (jsonSchema.maximum === Number.MAX_SAFE_INTEGER) delete jsonSchema.maximum;
};

/** What a path is about, for the document's headings: the resource below `/api`, else the server itself. */
function tagOf(path: string): string {
  const part = path.split("/")[2]?.replaceAll("-", " ");
  return part === undefined || OF_THE_SERVER.has(part) ? "Server" : part[0]!.toUpperCase() + part.slice(1);
}
const OF_THE_SERVER: ReadonlySet<string> = new Set(["about", "openapi.json", "schema", "problems"]);

function describe(operation: Operation): object {
  const { method, path, needs, described } = operation;
  const { id, summary, description, query, reads = {}, body, answers } = described;
  const cached =
    method === "get" &&
    Object.values(answers).some((answer) => contentsOf(answer).some(({ type }) => type === "application/json"));
  const conditions = cached ? { ...reads, "If-None-Match": "The ETag of what the reader has." } : reads;
  return {
    operationId: id,
    summary,
    description: [description, `Needs the role “${needs}”.`].filter((part) => part !== undefined).join(" "),
    tags: [tagOf(path)],
    parameters: [
      ...Object.entries(described.path ?? {}).map(([name, about]) => parameter("path", name, about as string, true)),
      ...Object.entries(conditions).map(([name, about]) => parameter("header", name, about, false)),
    ],
    ...(query === undefined ? {} : { requestParams: { query } }),
    ...(body === undefined ? {} : { requestBody: { required: body.optional !== true, content: contentOf([body]) } }),
    responses: {
      ...Object.fromEntries(Object.entries(answers).map(([status, answer]) => [status, answered(answer, cached)])),
      ...(cached ? { 304: { description: "Nothing changed.", headers: headersOf(["X-Request-Id", "ETag"]) } } : {}),
      ...Object.fromEntries(Array.from(faultsOf(operation), ([status, codes]) => [status, refusedWith(status, codes)])),
    },
  };
}

const parameter = (place: "path" | "header", name: string, description: string, required: boolean): object => ({
  in: place,
  name,
  description,
  required,
  schema: { type: "string" },
});

const headersOf = (names: readonly string[]): object =>
  Object.fromEntries(names.map((name) => [name, { $ref: `#/components/headers/${name}` }]));

function answered(answer: Answer, cached: boolean): object {
  const { description, headers = {}, mayHave = {} } = answer;
  const contents = contentsOf(answer);
  return {
    description,
    headers: {
      ...headersOf(["X-Request-Id", ...(cached && contents.some(({ event }) => event === undefined) ? ["ETag"] : [])]),
      ...ownHeaders(headers, true),
      ...ownHeaders(mayHave, false),
    },
    ...(contents.length === 0 ? {} : { content: contentOf(contents) }),
  };
}

const ownHeaders = (headers: Readonly<Record<string, string>>, required: boolean): object =>
  Object.fromEntries(
    Object.entries(headers).map(([name, description]) => [name, { description, required, schema: { type: "string" } }]),
  );

/** In OpenAPI 3.1 a stream is text; what the data of an event is stands beside it, in an extension. */
function contentOf(contents: readonly Content[]): object {
  return Object.fromEntries(
    contents.map(({ type, schema, event }) => [
      type,
      {
        schema: schema === "text" ? { type: "string" } : schema === "bytes" ? {} : schema,
        ...(event === undefined ? {} : { "x-event": { $ref: `#/components/schemas/${nameOfEvent(event)}` } }),
      },
    ]),
  );
}

type Event = NonNullable<Content["event"]>;
const nameOfEvent = (event: Event): string => String(event.meta()?.id);
const eventsOf = (answer: Answer): [string, Event][] =>
  contentsOf(answer).flatMap(({ event }): [string, Event][] =>
    event === undefined ? [] : [[nameOfEvent(event), event]],
  );

/** A refusal is of one of the faults that its status stands for. */
function refusedWith(status: number, codes: readonly FaultCode[]): object {
  const refs = codes.map((code) => ({ $ref: `#/components/schemas/${nameOf(code)}` }));
  return {
    description: `${codes.map((code) => FAULTS[code].title).join(", or: ")}.`,
    headers: headersOf(["X-Request-Id", ...(status === 429 || status === 503 ? ["Retry-After"] : [])]),
    content: {
      "application/problem+json": {
        schema:
          refs.length === 1
            ? refs[0]!
            : {
                oneOf: refs,
                discriminator: {
                  propertyName: "code",
                  mapping: Object.fromEntries(codes.map((code, i) => [code, refs[i]!.$ref])),
                },
              },
      },
    },
  };
}

/** What each schema is named in the end, by the name that it was made with; those that nothing refers to are left out. */
function namesOf(schemas: Schemas, from: string): ReadonlyMap<string, string> {
  const used = new Set<string>();
  const open = [from];
  for (let text = open.pop(); text !== undefined; text = open.pop())
    for (const [, name] of text.matchAll(REFERENCE)) {
      if (used.has(name!)) continue;
      used.add(name!);
      open.push(JSON.stringify(schemas[name!]));
    }
  return new Map(
    Array.from(used, (name) => {
      // Any JSON refers to itself, so that each place that allows it brings a schema of its own with a number for a name.
      if (/^__schema\d+$/.test(name)) return [name, "Json"];
      const plain = name.replace(new RegExp(`${FILLED}$`), "");
      return [name, used.has(plain) ? name : plain];
    }),
  );
}

/** The document with its schemas under their final names. */
function tidied(document: OpenApiDocument): OpenApiDocument {
  const { components, ...rest } = document;
  const schemas = (components?.schemas ?? {}) as Schemas;
  const names = namesOf(schemas, JSON.stringify(rest));
  const renamed = (value: unknown): unknown =>
    JSON.parse(
      JSON.stringify(value).replaceAll(REFERENCE, (_, name: string) => `"#/components/schemas/${names.get(name)!}"`),
    );
  return {
    ...(renamed(rest) as OpenApiDocument),
    components: {
      ...components,
      schemas: Object.fromEntries(
        Array.from(names, ([made, name]) => [name, renamed(schemas[made])] as const).toSorted(([a], [b]) =>
          a < b ? -1 : 1,
        ),
      ) as NonNullable<NonNullable<OpenApiDocument["components"]>["schemas"]>,
    },
  };
}

type Schemas = Readonly<Record<string, unknown>>;
const REFERENCE = /"#\/components\/schemas\/(\w+)"/g;
/** What is added to the name of a schema that is sent with its defaults filled in, where it is received without too. */
const FILLED = "Filled";
