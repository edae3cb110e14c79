// Headings, heads of tables and sentences stand in viewer/present/messages, once for page, report and terminal.
import { readdirSync, readFileSync } from "node:fs";
import { join, resolve } from "node:path";
import ts from "typescript";
import { describe, expect, test } from "vitest";

const root = resolve(import.meta.dirname, "../..");
const ROOMS = ["viewer/page", "viewer/report", "viewer/terminal"];
/** Where words stand that no other medium says. */
const OWN_WORDS = "viewer/page/words";

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
  "viewer/page/evidence-forms/certificate-form.ts": "ids of its parts",
  "viewer/page/evidence-forms/immersion-form.ts": "ids of its parts",
  "viewer/page/evidence-forms/readings-form.ts": "ids of its parts",
  "viewer/page/new-study/checker.ts": "the title of a study that is checked and never kept",
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

/** Attributes and calls whose texts nobody reads. */
const SILENT = new Set(["class", "style", "d", "viewBox", "role", "id", "text-anchor", "xmlns", "href", "transform"]);

/** Selectors, addresses, media types and names of keys: nobody reads them as words. */
const CODE =
  /^[#.<([]|^(?:api|https?:|image|text|application)[/:]|^…\/|\[[\w=-]+\]|^(?:input|textarea|select|main)\b|^[A-Z]\w+\+[A-Z]\w*$/;

/** Texts of two words or more outside headings: sentences, hints, names of pictures, titles of axes. */
function literalProse(file: string, text: string): string[] {
  const found: string[] = [];
  const isProse = (words: string): boolean =>
    !CODE.test(words) && (words.match(/(?<![-\w.])\p{L}{2,}(?![-\w.(/])/gu) ?? []).length >= 2;
  const visit = (node: ts.Node): void => {
    if (ts.isImportDeclaration(node) || ts.isExportDeclaration(node) || ts.isThrowStatement(node)) return;
    if (ts.isPropertyAssignment(node) && SILENT.has(node.name.getText().replaceAll('"', ""))) return;
    // Markup has its words between its tags; what is filled in is judged by itself.
    if (ts.isTaggedTemplateExpression(node)) {
      const { template } = node;
      const spans = ts.isTemplateExpression(template) ? template.templateSpans : [];
      const markup = ts.isTemplateExpression(template)
        ? [template.head.text, ...spans.map(({ literal }) => literal.text)].join("…")
        : template.text;
      found.push(...markup.split(/<[^>]*>/).filter(isProse));
      for (const { expression } of spans) visit(expression);
      return;
    }
    if (ts.isStringLiteralLike(node) && isProse(node.text)) found.push(node.text);
    if (ts.isTemplateExpression(node)) {
      const words = [node.head.text, ...node.templateSpans.map(({ literal }) => literal.text)].join("…");
      if (isProse(words)) found.push(words);
    }
    ts.forEachChild(node, visit);
  };
  visit(ts.createSourceFile(file, text, ts.ScriptTarget.Latest, true));
  return found;
}

const filesOf = (room: string): string[] =>
  readdirSync(join(root, room), { recursive: true, encoding: "utf8" })
    .filter((name) => name.endsWith(".ts"))
    .map((name) => `${room}/${name}`)
    .filter((file) => !file.startsWith(OWN_WORDS));

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

/** Files that state sentences themselves, and why. */
const WITH_PROSE: Readonly<Record<string, string>> = {
  "viewer/page/take-away/run-files.ts": "addresses",
  "viewer/page/shelf.ts": "the name of the laboratory of the examples",
  "viewer/page/import/words.ts": "the value of a choice",
  "viewer/page/evidence/keeping.ts": "a state",
  "viewer/page/watch/view.ts": "a command",
  "viewer/page/workers/view.ts": "two commands",
  "viewer/page/survey-setup/problem-places.ts": "what the server says in English, in the words of the form",
  "viewer/page/new-study/attached-files.ts": "what a record files of a document, in English as all that it files",
  "viewer/page/what-if/figure.ts": "why a text is no width",
  "viewer/page/what-if/input-fields.ts": "why a text is no width",
  "viewer/page/compare/comparison.ts": "the ids of two rows",
  "viewer/page/panels/joint.ts": "the style of a cell",
  "viewer/report/style.ts": "the style sheet",
  "viewer/report/certificate-style.ts": "the style sheet of a certificate",
  "viewer/report/sections/provenance.ts": "the command that checks an installation",
};

test.each([
  ['html("p", {}, "No bin lies wholly in this part.")', "No bin lies wholly in this part."],
  ['svg("text", { class: "axis title" }, `averaging time of ${name}`)', "averaging time of …"],
  ['html`<p class="fine">The ${count} trials lie outside.</p>`', "The … trials lie outside."],
])("literal prose is found: %s", (source, words) => {
  expect(literalProse("source.ts", source)).toEqual([words]);
});

test("page, report and terminal take their sentences from the messages", () => {
  const files = ROOMS.flatMap(filesOf);
  const found = files.flatMap((file) =>
    literalProse(file, readFileSync(join(root, file), "utf8")).map((text) => ({ file, text })),
  );
  expect(found.filter(({ file }) => !Object.hasOwn(WITH_PROSE, file))).toEqual([]);
  expect(Object.keys(WITH_PROSE).filter((of) => !found.some(({ file }) => file === of))).toEqual([]);
});
