import { templates as all } from "../../models/index.ts";
import { templateList, type TemplateList } from "../../viewer/api/templates.ts";
import { Fault } from "../errors.ts";
import { json } from "../openapi/described.ts";
import { filesOf, TEMPLATE_TYPES, writeTemplate } from "../shelves/templates.ts";
import type { RouteRegistration } from "./route.ts";

/** Files to fill in, which come back as they are: a budget table, a survey, readings of a comparison. */
export const templates: RouteRegistration = (router) => {
  router.get(
    "/templates",
    "read",
    {
      id: "listTemplates",
      summary: "Files to fill in",
      answers: { 200: { description: "Each template with its files.", content: json(templateList) } },
    },
    (_request, response) => {
      response.json(
        all.map((template) => ({
          for: template.for,
          title: template.title,
          files: [...filesOf(template)],
        })) satisfies TemplateList,
      );
    },
  );

  router.get(
    "/templates/:file",
    "read",
    {
      id: "getTemplate",
      summary: "A file to fill in",
      description: "It is complete as it stands: sent back unchanged it is read without a question.",
      path: { file: "Its name, as the list of templates has it." },
      answers: {
        200: {
          description: "The file: CSV, XLSX or JSON by its name.",
          content: TEMPLATE_TYPES.map((type) => ({ type, schema: "bytes" })),
        },
      },
      faults: ["no-such-file"],
    },
    async (request, response) => {
      const { file } = request.params;
      for (const template of all) {
        const written = await writeTemplate(template, file);
        if (written === null) continue;
        response.attachment(file).type(written.type).send(Buffer.from(written.bytes));
        return;
      }
      throw new Fault(
        "no-such-file",
        `There is no template ${file}; there are ${all.flatMap((template) => filesOf(template)).join(", ")}.`,
      );
    },
  );
};
