import { XMLParser, XMLValidator } from "fast-xml-parser";
import { refuse } from "../../engine/index.ts";
import { dsiFile, type DsiFile, type XmlElement } from "../../models/index.ts";
import { bytesOf, nameOf, type FileSource } from "./source.ts";

const MOST_BYTES = 20_000_000;
/** Namespaces of the D-SI data model and of the Digital Calibration Certificate. */
const NAMESPACE = /https:\/\/ptb\.de\/(si|dcc)/;

/**
 * Reads the quantities of a Digital Calibration Certificate, or of any XML with D-SI quantities.
 *
 * A document type declaration is refused and entities are not expanded, so that a file can neither read others nor
 * swell.
 *
 * @throws {InputError} no such XML, or a quantity that is not whole, by its number and name
 */
export async function readDsi(source: FileSource): Promise<DsiFile> {
  const name = nameOf(source);
  const text = (await bytesOf(source, MOST_BYTES)).toString("utf8").replace(/^\uFEFF/, "");
  if (/<!(DOCTYPE|ENTITY)/i.test(text))
    refuse(name, "a document type declaration", "XML without DOCTYPE: entities are not expanded");
  const valid = XMLValidator.validate(text);
  if (valid !== true) refuse(`${name}, line ${valid.err.line}`, valid.err.msg, "well-formed XML");
  if (!NAMESPACE.test(text))
    refuse(name, "no D-SI namespace", "XML in the namespace https://ptb.de/si or https://ptb.de/dcc");
  const parser = new XMLParser({
    ignoreAttributes: false,
    attributeNamePrefix: "@",
    removeNSPrefix: true,
    // 0.100 must not become 0.1: trailing zeros carry meaning.
    parseTagValue: false,
    parseAttributeValue: false,
    processEntities: false,
    trimValues: true,
  });
  return dsiFile(name, parser.parse(text) as XmlElement);
}
