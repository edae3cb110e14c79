import { speech, words } from "../language.ts";
import { fillText } from "../../present/fill.ts";
import type { ListedTemplate, TemplateList } from "../../api/templates.ts";
import { listTemplates, RequestError, templateAt } from "../api.ts";
import { html } from "../draw/node.ts";

/** A file's ending as people call it. */
const kindOf = (file: string): string => file.slice(file.lastIndexOf(".") + 1).toUpperCase();

/**
 * Places that offer the templates of one start each; filled once the server has listed them. Without an answer they stay
 * empty: a start needs no template.
 */
export function createTemplates(): (of: ListedTemplate["for"]) => HTMLElement {
  const asked: Promise<TemplateList> = listTemplates().catch((error: unknown) => {
    if (error instanceof RequestError) return [];
    throw error;
  });
  return (of) => {
    const place = html("ul", { class: "templates", "aria-label": words.start.templates });
    void asked.then((all) => place.replaceChildren(...all.filter((template) => template.for === of).map(templateItem)));
    return place;
  };
}

const templateItem = ({ title: english, files }: ListedTemplate): HTMLElement => {
  const title = speech.translate(english);
  return html(
    "li",
    {},
    html("span", {}, fillText(words.start.templateFor, { title })),
    files.map((file, i) => [
      i === 0 ? "" : " · ",
      html(
        "a",
        {
          href: templateAt(file),
          download: file,
          id: `template-${file}`,
          "aria-label": fillText(words.start.templateKind, { title, kind: kindOf(file) }),
        },
        kindOf(file),
      ),
    ]),
  );
};
