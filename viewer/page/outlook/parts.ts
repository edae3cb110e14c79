import type { Scene } from "../../present/pictures/scene.ts";
import type { Table } from "../../present/tables/table.ts";
import { html, type Child } from "../draw/node.ts";
import { sceneNode } from "../draw/scene.ts";
import { wideTable } from "../draw/table.ts";

/** Sentences, a paragraph each. */
export const paragraphs = (texts: readonly string[]): Child => texts.map((text) => html("p", {}, text));

/** A picture with its caption. */
export const pictured = (scene: Scene, caption: string): HTMLElement =>
  html("figure", {}, sceneNode(scene), html("figcaption", {}, caption));

/** Numbers the tables of a view, so that each has a name of its own. */
export function tablesOf(view: string, title: string): (table: Table) => Child {
  let count = 0;
  return (table) => (table.rows.length === 0 ? null : wideTable(table, `${view}-table-${++count}`, title));
}
