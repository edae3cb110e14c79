import { escaped, html, joinMarkup, type Child, type Markup } from "../../viewer/report/markup.ts";
import { FAULTS, type FaultCode } from "../errors.ts";
import type { OpenApiDocument } from "./document.ts";
import { nameOf } from "./faults.ts";
import { fieldsOf, schemaAnchor, schemaName, typeOf, type Schema } from "./schema-html.ts";

/** Parts of the document that the page shows, as `documentOf` makes them. */
interface Parameter {
  readonly in: string;
  readonly name: string;
  readonly description?: string;
  readonly required?: boolean;
  readonly schema: Schema;
}
type Content = Readonly<Record<string, { readonly schema?: Schema; readonly "x-event"?: Schema }>>;
interface Answer {
  readonly description: string;
  readonly content?: Content;
  readonly headers?: Readonly<Record<string, object>>;
}
interface Route {
  readonly operationId: string;
  readonly summary: string;
  readonly description: string;
  readonly tags: readonly string[];
  readonly parameters?: readonly Parameter[];
  readonly requestBody?: { readonly required: boolean; readonly content: Content };
  readonly responses: Readonly<Record<string, Answer>>;
}
interface Shown extends Route {
  readonly method: string;
  readonly path: string;
}

const METHODS = ["get", "post", "put", "delete"] as const;

/** The interface as a page for people: the document, with nothing added and no script. */
export function interfacePage(document: OpenApiDocument): string {
  const routes = Object.entries(document.paths ?? {}).flatMap(([path, item]) =>
    METHODS.flatMap((method): Shown[] =>
      item[method] === undefined ? [] : [{ method: method.toUpperCase(), path, ...(item[method] as unknown as Route) }],
    ),
  );
  const groups = (document.tags ?? []).map(({ name }) => ({
    name,
    routes: routes.filter(({ tags }) => tags[0] === name),
  }));
  const faults = Object.keys(FAULTS) as FaultCode[];
  const always = faults.filter((code) =>
    routes.every(({ responses }) => Object.values(responses).some((answer) => codesOf(answer).includes(code))),
  );
  const refusals = new Set(faults.map((code) => addressOf(code)));
  const schemas = Object.entries((document.components?.schemas ?? {}) as Readonly<Record<string, Schema>>).filter(
    ([, { properties }]) => !refusals.has(String(properties?.["type"]?.const)),
  );
  const { title, version, description = "" } = document.info;
  const page = html`<a class="skip" href="#routes">Skip to the routes</a>
    <header>
      <p><a href="./">Trialband</a></p>
      <h1>The interface of ${title} ${version}</h1>
      ${description.split("\n\n").map((text) => html`<p>${text}</p>`)}
      <p>
        Every answer has the header <code>X-Request-Id</code>: the id of the request, as in the server's log. Answers
        with an <code>ETag</code> are not sent again while nothing changed.
      </p>
      <p>Programs read it as an <a href="api/openapi.json">OpenAPI document</a>, version 3.1.</p>
    </header>
    <nav aria-label="Contents">
      <h2>Contents</h2>
      <ul>
        ${groups.map(
          ({ name, routes: own }) =>
            html`<li>
              <a href="#${groupAnchor(name)}">${name}</a>
              <ul>
                ${own.map(
                  ({ operationId, method, path, summary }) =>
                    html`<li>
                      <a href="#${operationId}"><code>${method} ${path}</code></a> ${summary}
                    </li>`,
                )}
              </ul>
            </li>`,
        )}
        <li><a href="#signing-in">Signing in</a></li>
        <li><a href="#faults">Faults</a></li>
        <li><a href="#schemas">Schemas</a></li>
      </ul>
    </nav>
    <main id="routes" tabindex="-1">
      ${groups.map(
        ({ name, routes: own }) =>
          html`<section aria-labelledby="${groupAnchor(name)}">
            <h2 id="${groupAnchor(name)}">${name}</h2>
            ${own.map((route) => routeShown(route, always))}
          </section>`,
      )}
      ${signingIn(document)}
      <section aria-labelledby="faults">
        <h2 id="faults">Faults</h2>
        <p>
          A refusal has the code of its fault, its status and title, and in detail what went wrong this time. Any route
          can answer with ${joinMarkup(always.map(faultLink), ", ")}; these are not repeated above.
        </p>
        ${table(
          "Every fault of the interface and of the command line",
          ["Code", "Status", "Title"],
          faults.map((code) => [
            html`<code id="fault-${code}">${code}</code>`,
            FAULTS[code].status,
            FAULTS[code].title,
          ]),
        )}
      </section>
      <section aria-labelledby="schemas">
        <h2 id="schemas">Schemas</h2>
        ${schemas.map(
          ([name, schema]) =>
            html`<article id="${schemaAnchor(name)}" aria-labelledby="${schemaAnchor(name)}-name">
              <h3 id="${schemaAnchor(name)}-name">${name}</h3>
              ${schema.description === undefined ? null : html`<p>${schema.description}</p>`} ${fieldsOf(schema)}
            </article>`,
        )}
      </section>
    </main>`;
  return `<!doctype html>
<html lang="en-GB">
<head>
<meta charset="utf-8">
<meta name="viewport" content="width=device-width, initial-scale=1">
<meta name="color-scheme" content="light dark">
<title>${escaped(`Interface · ${title}`)}</title>
<link rel="icon" href="mark.svg" type="image/svg+xml">
<link rel="stylesheet" href="interface.css">
</head>
<body>
${page.markup}
</body>
</html>
`;
}

const groupAnchor = (name: string): string => `group-${name.toLowerCase().replaceAll(" ", "-")}`;
const addressOf = (code: FaultCode): string => `/api/problems/${code}`;

/** @param always codes of the faults that any route can answer with: said once, not for each */
function routeShown(
  { operationId, method, path, summary, description, ...route }: Shown,
  always: readonly string[],
): Markup {
  const { parameters = [], requestBody, responses } = route;
  return html`<article id="${operationId}" aria-labelledby="${operationId}-name">
    <h3 id="${operationId}-name"><code>${method} ${path}</code> <span class="summary">${summary}</span></h3>
    <p>${description}</p>
    ${
      parameters.length === 0
        ? null
        : table(
            `Parameters of ${method} ${path}`,
            ["Name", "Where", "What it may be", "What it is"],
            parameters.map(({ name, in: place, schema, description: about = "", required }) => [
              html`<code>${name}</code>${required === true ? null : html` <span class="may">optional</span>`}`,
              place,
              typeOf({ ...schema, description: "" }),
              about,
            ]),
          )
    }
    ${
      requestBody === undefined
        ? null
        : html`<p>
            Body${requestBody.required ? null : html` <span class="may">optional</span>`}:
            ${contentShown(requestBody.content)}
          </p>`
    }
    ${table(
      `Answers of ${method} ${path}`,
      ["Status", "What it means", "Content", "Headers"],
      Object.entries(responses).flatMap(([status, answer]) => {
        const codes = codesOf(answer);
        const own = codes.filter((code) => !always.includes(code));
        if (codes.length > 0 && own.length === 0) return [];
        return [
          [
            status,
            codes.length === 0 ? answer.description : `${own.map((code) => FAULTS[code].title).join(", or: ")}.`,
            codes.length === 0 ? contentShown(answer.content) : joinMarkup(own.map(faultLink), ", "),
            Object.keys(answer.headers ?? {})
              .filter((name) => name !== "X-Request-Id")
              .join(", "),
          ],
        ];
      }),
    )}
  </article>`;
}

function contentShown(content: Content | undefined): Markup {
  return html`${Object.entries(content ?? {}).map(
    ([type, { schema = {}, "x-event": event }]) =>
      html`<code>${type}</code>${
          event !== undefined
            ? html`: the data of each event is ${typeOf(event)}`
            : Object.keys(schema).length === 0 || schema.type === "string"
              ? null
              : html`: ${typeOf(schema)}`
        }`,
  )}`;
}

const faultLink = (code: string): Markup => html`<a href="#fault-${code}">${code}</a>`;

/** The faults that an answer may be of; none for one that is no refusal. */
function codesOf({ content }: Answer): readonly FaultCode[] {
  const { $ref, oneOf = [] } = content?.["application/problem+json"]?.schema ?? {};
  const names = new Set(
    [$ref, ...oneOf.map((one) => one.$ref)].flatMap((ref) => (ref === undefined ? [] : [schemaName(ref)])),
  );
  return (Object.keys(FAULTS) as FaultCode[]).filter((code) => names.has(nameOf(code)));
}

function signingIn(document: OpenApiDocument): Markup {
  const schemes = Object.values(
    (document.components?.securitySchemes ?? {}) as Readonly<
      Record<
        string,
        { readonly type: string; readonly scheme?: string; readonly name?: string; readonly description?: string }
      >
    >,
  );
  return html`<section aria-labelledby="signing-in">
    <h2 id="signing-in">Signing in</h2>
    <p>
      A server for its own machine alone asks nobody who they are. One that is reached from other machines asks for one
      of these with each request:
    </p>
    <ul>
      ${schemes.map(
        ({ type, scheme, name, description }) =>
          html`<li>
            <code>${type === "http" ? `Authorization: ${scheme ?? ""}` : (name ?? "")}</code> ${description ?? ""}
          </li>`,
      )}
    </ul>
  </section>`;
}

/** A table that a reader moves sideways on a narrow screen, with the keyboard too. */
function table(caption: string, heads: readonly string[], rows: readonly (readonly Child[])[]): Markup {
  return html`<div class="table" role="region" aria-label="${caption}" tabindex="0">
    <table>
      <caption class="unseen">
        ${caption}
      </caption>
      <thead>
        <tr>
          ${heads.map((head) => html`<th scope="col">${head}</th>`)}
        </tr>
      </thead>
      <tbody>
        ${rows.map(
          ([first, ...rest]) =>
            html`<tr>
              <th scope="row">${first!}</th>
              ${rest.map((cell) => html`<td>${cell}</td>`)}
            </tr>`,
        )}
      </tbody>
    </table>
  </div>`;
}
