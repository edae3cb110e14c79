import { create } from "xmlbuilder2";
import type { XMLBuilder } from "xmlbuilder2/lib/interfaces.js";

/** A document whose texts may hold anything: what XML cannot hold is left out (XML 1.0, 2.2). */
export const xmlDocument = (): XMLBuilder => create({ version: "1.0", encoding: "UTF-8", invalidCharReplacement: "" });

/** A text as the builder must be given it: it writes "&lt;" in a text as it stands, which would be read as "<". */
export const xmlText = (text: string): string => text.replaceAll("&", "&amp;");
