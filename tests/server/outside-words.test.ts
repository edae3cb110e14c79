// Words that every object of JavaScript answers to must find nothing when they come from outside, as no other unknown
// word does: each is refused with its place, or stands for itself where any name may stand.
import request from "supertest";
import { afterAll, beforeAll, describe, expect, test } from "vitest";
import { createApp } from "../../server/app.ts";
import { openPool, type Pool } from "../../server/runs/pool/pool.ts";
import { Runs } from "../../server/runs/runs.ts";
import { openStore } from "../../server/store/open-store.ts";
import { studyShelf } from "../../server/shelves/studies.ts";
import type { Problem } from "../../engine/index.ts";
import { LONG } from "../setup/long.ts";
import { scratch, trialband } from "./cli/trialband.ts";

const WORDS = ["constructor", "__proto__", "toString", "hasOwnProperty", "valueOf"] as const;
const { write } = scratch();
let pool: Pool;
let app: ReturnType<typeof createApp>;

beforeAll(async () => {
  pool = await openPool(1);
  const runs = new Runs(async () => pool, openStore({ folder: null }));
  const shelf = studyShelf(new URL("../../examples", import.meta.url).pathname);
  app = createApp({ runs, shelf, workers: 1, page: "/nowhere", hosts: null });
});
afterAll(() => pool.close());

const NORMAL = '{"distribution":"normal","estimate":1,"standardUncertainty":0.1}';
/** A study as text: in an object literal `__proto__` would set the prototype. */
const study = ({
  model = '"additive"',
  parameters = '{"coefficients":{"a":1,"b":2}}',
  inputs = `{"a":${NORMAL},"b":${NORMAL}}`,
  more = "",
}: {
  readonly model?: string;
  readonly parameters?: string;
  readonly inputs?: string;
  readonly more?: string;
}): string =>
  `{"title":"t","model":${model},"parameters":${parameters},"inputs":${inputs},"coverage":{"factor":2},"trials":10000${more === "" ? "" : `,${more}`}}`;

/** Where a study may have a word that means nothing, and the place that the refusal names. */
const PLACES: readonly (readonly [string, (word: string) => string, RegExp])[] = [
  ["a model", (word) => study({ model: `"${word}"` }), /^model$/],
  ["a parameter", (word) => study({ parameters: `{"coefficients":{"a":1,"b":2},"${word}":1}` }), /^parameters\./],
  ["a field", (word) => study({ more: `"${word}":1` }), /^\w+$/],
  ["an input", (word) => study({ inputs: `{"a":${NORMAL},"b":${NORMAL},"${word}":${NORMAL}}` }), /^inputs\./],
  [
    "a distribution",
    (word) => study({ inputs: `{"a":{"distribution":"${word}"},"b":${NORMAL}}` }),
    /^inputs\.a\.distribution$/,
  ],
  [
    "a field of a distribution",
    (word) => study({ inputs: `{"a":${NORMAL.slice(0, -1)},"${word}":1},"b":${NORMAL}}` }),
    /^inputs\.a\.\w+$/,
  ],
  [
    "a unit",
    (word) => study({ inputs: `{"a":${NORMAL.slice(0, -1)},"unit":"${word}"},"b":${NORMAL}}` }),
    /^inputs\.a\.unit$/,
  ],
  [
    "a term",
    (word) => study({ parameters: `{"coefficients":{"a":1,"b":2},"terms":{"${word}":{"unit":"m"}}}` }),
    /^parameters\.terms\./,
  ],
  [
    "an input of a correlation",
    (word) => study({ more: `"correlations":[{"between":["a","${word}"],"coefficient":0.5}]` }),
    /^correlations\.0/,
  ],
  [
    "a measurand with a requirement",
    (word) => study({ more: `"conformity":{"${word}":{"tolerance":{"lower":0}}}` }),
    /^conformity\./,
  ],
  [
    "a specification",
    (word) => study({ more: `"conformity":{"result":{"tolerance":{"specification":"${word}"}}}` }),
    /^conformity\.result\.tolerance\.specification$/,
  ],
  ["an input judged negligible", (word) => study({ more: `"negligible":{"${word}":"small"}` }), /^negligible\./],
  ["a generator", (word) => study({ more: `"generator":"${word}"` }), /^generator$/],
  [
    "an input of a sweep",
    (word) =>
      study({
        more: `"sweep":{"quantity":"q","unit":"m","points":[{"at":1,"inputs":{"${word}":${NORMAL}}},{"at":2,"inputs":{}}]}`,
      }),
    // Points are checked one by one, each as a study.
    /^(sweep\.points\.0\.)?inputs\./,
  ],
  ["a bath's fluid", (word) => study({ more: `"bath":{"fluid":"${word}"}` }), /^bath/],
];

const casesOf = (words: readonly string[]): { word: string; what: string; text: string; place: RegExp }[] =>
  words.flatMap((word) => PLACES.map(([what, text, place]) => ({ word, what, text: text(word), place })));
/** One that every object inherits, and the one that sets what is inherited; the rest are inherited alike. */
const cases = casesOf(["constructor", "__proto__"]);
const alike = casesOf(WORDS.slice(2));

describe("a study", () => {
  const byRoute = async ({ text, place }: (typeof cases)[number]): Promise<void> => {
    const response = await request(app)
      .post("/api/studies/check")
      .set("content-type", "application/json")
      .send(`{"study":${text}}`);
    expect(response.status, JSON.stringify(response.body)).toBe(200);
    const problems = response.body.problems as Problem[];
    expect(problems.map((problem) => problem.place)).toContainEqual(expect.stringMatching(place));
  };
  const BY_ROUTE = "with $word as $what is refused by the route, with the place";
  test.each(cases)(BY_ROUTE, byRoute);
  test.each(alike)(BY_ROUTE, LONG, byRoute);

  const byCommand = async ({ word, text, place }: (typeof cases)[number]): Promise<void> => {
    const { status, stdout, stderr } = await trialband("run", write(`${word}.json`, text), "--json");
    expect({ status, stdout }).toEqual({ status: 2, stdout: "" });
    const places = stderr.split("\n").map((line) => /^ {2}([^:]+): got /.exec(line)?.[1] ?? "");
    expect(places).toContainEqual(expect.stringMatching(place));
  };
  const BY_COMMAND = "with $word as $what is refused by the command, with the place";
  test.each(cases)(BY_COMMAND, byCommand);
  test.each(alike)(BY_COMMAND, LONG, byCommand);

  test.each(WORDS)("does not name an input or a measurand %s", async (word) => {
    const named = [
      study({ parameters: `{"coefficients":{"${word}":1}}`, inputs: `{"${word}":${NORMAL}}` }),
      study({ parameters: `{"coefficients":{"a":1,"b":2},"measurand":{"name":"${word}"}}` }),
    ];
    for (const text of named) {
      const { status, stderr } = await trialband("run", write("named.json", text), "--json");
      expect(status).toBe(2);
      expect(stderr).toMatch(
        /^ {2}(model\.(inputs|measurands)|inputs\.__proto__|parameters\.coefficients\.__proto__): got /m,
      );
    }
  });

  test.each(WORDS)("may have a term in a unit called %s, which is converted to nothing", async (word) => {
    const text = study({ parameters: `{"coefficients":{"a":1,"b":2},"terms":{"a":{"unit":"${word}"}}}` });
    const { status, stdout } = await trialband("run", write("unit.json", text), "--json");
    expect(status).toBe(0);
    expect(JSON.parse(stdout).inputs.a.unit).toBe(word);
  });
});

describe("a request", () => {
  test.each(
    WORDS.flatMap((word) =>
      [
        `/api/studies/${word}`,
        `/api/studies/harrowfen/${word}`,
        `/api/runs/${word}`,
        `/api/surveys/${word}`,
        `/api/${word}`,
      ].map((path) => [path] as const),
    ),
  )("GET %s finds nothing", async (path) => {
    const response = await request(app).get(path);
    expect(response.status).toBe(404);
    expect(response.body.code).not.toBe("internal");
  });

  test.each(WORDS)("for the model %s finds nothing", async (word) => {
    const response = await request(app).post(`/api/models/${word}`).send({});
    expect(response.status).toBe(422);
    expect(response.body.code).toBe("no-such-model");
  });

  test.each(WORDS)("with the field %s is refused with its place", async (word) => {
    const response = await request(app)
      .post("/api/runs")
      .set("content-type", "application/json")
      .send(`{"study":"harrowfen/cold-store-4","${word}":1}`);
    expect(response.status).toBe(422);
    expect(response.body.problems[0].place).toBe(word);
  });
});

describe("a command", () => {
  test.each(WORDS)("%s is none", async (word) => {
    const { status, stderr } = await trialband(word);
    expect(status).toBe(2);
    expect(stderr).toContain(`unknown command '${word}'`);
  });

  test.each(WORDS)("does not know the language %s", async (word) => {
    const { status, stderr } = await trialband("report", "none.json", "--language", word);
    expect(status).toBe(2);
    expect(stderr).toMatch(/en.*de/s);
  });

  test.each(WORDS)("does not know the record's format %s", async (word) => {
    const file = write("record.json", `{"format":"${word}"}`);
    const { status, stderr } = await trialband("report", file);
    expect(status).toBe(2);
    expect(stderr).toContain("format");
  });
});
