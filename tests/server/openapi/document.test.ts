import { Validator } from "@seriousme/openapi-schema-validator";
import { Ajv2020 } from "ajv/dist/2020.js";
import formats from "ajv-formats";
import type { Express } from "express";
import request from "supertest";
import { beforeAll, describe, expect, test } from "vitest";
import { createApp } from "../../../server/app.ts";
import { FAULTS } from "../../../server/errors.ts";
import { documentOf, type OpenApiDocument } from "../../../server/openapi/document.ts";
import { everyOperation } from "../../../server/routes/operations.ts";
import { Runs } from "../../../server/runs/runs.ts";
import { studyShelf } from "../../../server/shelves/studies.ts";
import { openStore } from "../../../server/store/open-store.ts";
import { trialband } from "../cli/trialband.ts";

let app: Express;
let served: OpenApiDocument;
beforeAll(async () => {
  app = createApp({
    runs: new Runs(() => Promise.reject(new Error("nothing runs here")), openStore({ folder: null })),
    shelf: studyShelf(new URL("../../../examples", import.meta.url).pathname),
    workers: 1,
    page: "/nowhere",
    hosts: null,
    health: () => Promise.reject(new Error("nobody asks for it here")),
  });
  served = (await request(app).get("/api/openapi.json")).body as OpenApiDocument;
});

/** A copy, since the validator resolves references in place. */
const asData = (document: OpenApiDocument): Record<string, unknown> =>
  JSON.parse(JSON.stringify(document)) as Record<string, unknown>;

const METHODS = ["get", "post", "put", "delete", "patch"] as const;
const described = (document: OpenApiDocument): string[] =>
  Object.entries(document.paths ?? {})
    .flatMap(([path, item]) =>
      METHODS.filter((method) => item[method] !== undefined).map((method) => `${method} ${path}`),
    )
    .toSorted();

interface Layer {
  readonly route?: { readonly path: string; readonly methods: Readonly<Record<string, boolean>> };
  readonly handle: { readonly stack?: readonly Layer[] };
  match(path: string): boolean;
}

/** The routes that an app answers, as its own router has them. */
const answered = (layers: readonly Layer[], under = ""): string[] =>
  layers.flatMap((layer) => {
    if (layer.route !== undefined) {
      const path = under + layer.route.path.replaceAll(/:(\w+)/g, "{$1}").replace(/^\/$/, "");
      return Object.keys(layer.route.methods).map((method) => `${method} ${path}`);
    }
    if (layer.handle.stack === undefined) return [];
    // A router is mounted at the root, or at /api: a layer tells nothing of it but which paths it takes.
    return answered(layer.handle.stack, layer.match("/elsewhere") ? "" : "/api");
  });

describe("the document", () => {
  test("has every route that the server answers, and no other", () => {
    const routes = answered((app.router as unknown as { stack: readonly Layer[] }).stack).toSorted();
    expect(routes).toContain("post /api/runs");
    expect(routes).toContain("get /healthz");
    expect(described(served)).toEqual(routes);
  });

  test("is the same without a server", () => {
    expect(JSON.parse(JSON.stringify(documentOf(everyOperation())))).toEqual(served);
  });

  test("is what the command prints", async () => {
    const { stdout, status } = await trialband("schema", "--api");
    expect(status).toBe(0);
    expect(JSON.parse(stdout)).toEqual(served);
  });

  /** The meta-schema of OpenAPI 3.1 as published by the OpenAPI Initiative, with its dialect of JSON Schema. */
  test("is valid OpenAPI 3.1", async () => {
    const validator = new Validator();
    const found = await validator.validate(asData(served));
    expect(found.errors).toBeUndefined();
    expect(found.valid).toBe(true);
    expect(validator.version).toBe("3.1");
  });

  test("a wrong one is not", async () => {
    const wrong = structuredClone(served) as { paths: Record<string, { get: { responses: unknown } }> };
    wrong.paths["/api/about"]!.get.responses = { 200: { content: 3 } };
    expect((await new Validator().validate(wrong)).valid).toBe(false);
  });

  test("has only schemas that compile, each referred to", () => {
    const ajv = new Ajv2020({ strict: false, inlineRefs: false, code: { optimize: false } });
    (formats as unknown as (ajv: Ajv2020) => void)(ajv);
    ajv.addSchema(served, "api");
    const text = JSON.stringify(served);
    const names = Object.keys(served.components?.schemas ?? {});
    expect(names.length).toBeGreaterThan(40);
    for (const name of names) {
      expect(ajv.getSchema(`api#/components/schemas/${name}`), name).toBeTypeOf("function");
      expect(text).toContain(`"#/components/schemas/${name}"`);
    }
  });

  test("names each operation once, and says what each parameter of its path is", () => {
    const operations = Object.entries(served.paths ?? {}).flatMap(([path, item]) =>
      METHODS.flatMap((method) => (item[method] === undefined ? [] : [{ path, operation: item[method] }])),
    );
    const ids = operations.map(({ operation }) => operation.operationId);
    expect(new Set(ids).size).toBe(ids.length);
    for (const { path, operation } of operations) {
      const names = Array.from(path.matchAll(/\{(\w+)\}/g), ([, name]) => name!);
      const stated = (operation.parameters ?? []).flatMap((parameter) =>
        "in" in parameter && parameter.in === "path" ? [parameter] : [],
      );
      expect(stated.map(({ name }) => name)).toEqual(names);
      for (const { description, required } of stated) {
        expect(description).toMatch(/^[A-Z].*\.$/);
        expect(required).toBe(true);
      }
      expect(operation.summary).toMatch(/^[A-Z]/);
    }
  });

  test("has each fault that a route can meet with its status", () => {
    const responses = served.paths?.["/api/runs"]?.post?.responses ?? {};
    const codes = Object.values(responses).flatMap((response) => {
      const text = JSON.stringify(response);
      return Object.keys(FAULTS).filter((code) =>
        text.includes(`schemas/${code.replaceAll(/(?:^|-)(\w)/g, (_, letter: string) => letter.toUpperCase())}"`),
      );
    });
    expect(codes).toEqual(
      expect.arrayContaining(["bad-input", "queue-full", "cannot-keep", "no-such-study", "not-json"]),
    );
    expect(responses["429"]).toMatchObject({ headers: { "Retry-After": {} } });
    expect(responses["202"]).toMatchObject({ headers: { Location: {}, "X-Request-Id": {} } });
  });
});
