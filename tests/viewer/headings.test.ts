// Headings, captions and heads of tables are said in viewer/present/messages, once for page, report and terminal.
import { readdirSync, readFileSync } from "node:fs";
import { join, resolve } from "node:path";
import ts from "typescript";
import { describe, expect, test } from "vitest";

const root = resolve(import.meta.dirname, "../..");
const ROOMS = ["viewer/page/panels", "viewer/page/compare", "viewer/page/survey", "viewer/report", "viewer/terminal"];

/** Elements whose text is a heading. */
const ELEMENTS = new Set(["h1", "h2", "h3", "h4", "th", "caption", "figcaption", "dt", "legend", "summary"]);
/** Fields that are headings wherever they stand. */
const FIELDS = new Set(["title", "heading", "head", "caption", "headings", "heads"]);
/** Functions of the renderers that take headings, and which of their arguments these are. */
const FUNCTIONS = new Map<string, readonly number[]>([
  ["part", [1]],
  ["listPart", [1]],
  ["tablePart", [1, 2]],
  ["sentence", [0]],
  ["panel", [0]],
  ["surveyTable", [1, 2]],
  ["bold", [0]],
  ["fact", [0]],
]);

/** Files that state headings themselves, and why: no other medium says what they say. */
const EXCEPTIONS: Readonly<Record<string, string>> = {
  "viewer/page/survey/into-study.ts": "the form that puts a survey into a study",
  "viewer/page/survey/list.ts": "the shelf of surveys",
  "viewer/page/survey/panels.ts": "the axis of a picture that the page alone draws",
  "viewer/page/survey/remarks.ts": "where a survey's files come from",
  "viewer/terminal/certificate-lines.ts": "certificates are shown by the command line alone",
  "viewer/terminal/generator-summary.ts": "two generators are compared by the command line alone",
  "viewer/terminal/lines.ts": "the mark of a check",
  "viewer/terminal/readings-lines.ts": "readings are shown by the command line alone",
};

/** A word in any language; a symbol or a unit by itself is none. */
const hasWord = (text: string): boolean => /\p{L}{3}/u.test(text);

/** The texts that a value is made of, without those of elements inside it, which are judged by themselves. */
function wordsOf(node: ts.Node): string[] {
  if (ts.isStringLiteralLike(node)) return hasWord(node.text) ? [node.text] : [];
  if (ts.isTemplateExpression(node)) {
    const texts = [node.head.text, ...node.templateSpans.map(({ literal }) => literal.text)];
    return hasWord(texts.join(" ")) ? [texts.join("…")] : [];
  }
  if (ts.isConditionalExpression(node)) return [node.whenTrue, node.whenFalse].flatMap(wordsOf);
  if (ts.isBinaryExpression(node)) return [node.left, node.right].flatMap(wordsOf);
  if (ts.isArrayLiteralExpression(node)) return node.elements.flatMap(wordsOf);
  if (ts.isSpreadElement(node) || ts.isParenthesizedExpression(node) || ts.isAsExpression(node))
    return wordsOf(node.expression);
  return [];
}

const nameOf = (node: ts.Expression): string =>
  ts.isIdentifier(node) ? node.text : ts.isPropertyAccessExpression(node) ? node.name.text : "";

function headingsOf(node: ts.Node): string[] {
  if (ts.isPropertyAssignment(node) && ts.isIdentifier(node.name) && FIELDS.has(node.name.text))
    return wordsOf(node.initializer);
  // Markup of the report: html`<th>Words`.
  if (ts.isTaggedTemplateExpression(node))
    return [...node.template.getText().matchAll(/<(\w+)[^>]*>\s*([^<$]*)/g)]
      .filter(([, element, text]) => ELEMENTS.has(element!) && hasWord(text!))
      .map(([, , text]) => text!.trim());
  if (!ts.isCallExpression(node)) return [];
  const name = nameOf(node.expression);
  const [element, , ...children] = node.arguments;
  if (name === "html" && element !== undefined && ts.isStringLiteral(element) && ELEMENTS.has(element.text))
    return children.flatMap(wordsOf);
  // ["one", "other"].map((head) => html("th", {}, head))
  if (name === "map" && ts.isPropertyAccessExpression(node.expression))
    return [...ELEMENTS].some((of) => node.arguments[0]?.getText().includes(`html("${of}"`))
      ? wordsOf(node.expression.expression)
      : [];
  return (FUNCTIONS.get(name) ?? []).flatMap((i) =>
    node.arguments[i] === undefined ? [] : wordsOf(node.arguments[i]),
  );
}

/** Every heading that a source states as a literal. */
function literalHeadings(file: string, text: string): string[] {
  const found: string[] = [];
  const visit = (node: ts.Node): void => {
    found.push(...headingsOf(node));
    ts.forEachChild(node, visit);
  };
  visit(ts.createSourceFile(file, text, ts.ScriptTarget.Latest, true));
  return found;
}

const filesOf = (room: string): string[] =>
  readdirSync(join(root, room), { recursive: true, encoding: "utf8" })
    .filter((name) => name.endsWith(".ts"))
    .map((name) => `${room}/${name}`);

describe("a literal heading is found", () => {
  test.each([
    ['html("h2", {}, "Where it goes")', "Where it goes"],
    ['html("th", { scope: "col" }, [symbol, " needed"])', " needed"],
    ['html("caption", {}, `Bins of ${name}`)', "Bins of …"],
    ['["zone", "gain"].map((head) => html("th", {}, head))', "zone"],
    ['const panel = { id: "x", title: "What if?" }', "What if?"],
    ['tablePart(layout, "Points", [["correction", "left"]], rows)', "Points"],
    ['const section = html`<tr><th scope="row">Digest</th></tr>`', "Digest"],
  ])("%s", (source, heading) => {
    expect(literalHeadings("source.ts", source)).toContain(heading);
  });

  test.each([
    'html("h2", {}, words.title)',
    'html("p", {}, "A sentence of the panel.")',
    'html("th", { scope: "col" }, overUnit("", unit))',
    'html`<th scope="row">${head}</th>`',
  ])("%s has none", (source) => {
    expect(literalHeadings("source.ts", source)).toEqual([]);
  });
});

test("page, report and terminal take their headings from the messages", () => {
  const files = ROOMS.flatMap(filesOf);
  expect(files.length).toBeGreaterThan(60);
  const found = files.flatMap((file) =>
    literalHeadings(file, readFileSync(join(root, file), "utf8")).map((text) => ({ file, text })),
  );
  expect(found.filter(({ file }) => !Object.hasOwn(EXCEPTIONS, file))).toEqual([]);
  // An exception that nothing needs is taken off the list.
  expect(Object.keys(EXCEPTIONS).filter((of) => !found.some(({ file }) => file === of))).toEqual([]);
});
