import { equationFunctions, readTypedEquation } from "../../models/index.ts";
import {
  equationAnswer,
  equationRequest,
  functionList,
  type EquationAnswer,
  type FunctionList,
} from "../../viewer/api/equations.ts";
import { json } from "../openapi/described.ts";
import { bodyOf } from "./body.ts";
import type { RouteRegistration } from "./route.ts";

export const equations: RouteRegistration = (router) => {
  router.post(
    "/equations",
    "read",
    {
      id: "readEquation",
      summary: "Read and check a typed equation",
      description: "Its tree, its quantities and its text as a model in TypeScript, or what is wrong and where.",
      body: json(equationRequest),
      answers: { 200: { description: "What was read, or what is wrong.", content: json(equationAnswer) } },
    },
    async (request, response) => {
      const { equation, quantities, title } = bodyOf(equationRequest, request.body);
      response.json((await readTypedEquation({ equation, quantities }, title)) satisfies EquationAnswer);
    },
  );

  router.get(
    "/equations/functions",
    "read",
    {
      id: "listFunctions",
      summary: "The functions of typed equations",
      answers: { 200: { description: "Each function, as it is written.", content: json(functionList) } },
    },
    (_request, response) => {
      response.json(
        [...equationFunctions.values()].map(({ name, usage, meaning }) => ({
          name,
          usage,
          meaning,
        })) satisfies FunctionList,
      );
    },
  );
};
