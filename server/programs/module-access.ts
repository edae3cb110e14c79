import { topLevelNames } from "./top-level-names.ts";

/** The name under which a placed module gives what its top level declares. */
export const ACCESSOR = "trialbandValueOf";

/** Text to be put behind a bundled module: a function that gives the value of any name of its top level. */
export function accessorOf(source: string): string {
  const cases = [...topLevelNames(source).keys()].map(
    (name) => `case ${JSON.stringify(name)}: return typeof ${name} === "undefined" ? undefined : ${name};`,
  );
  return `\nexport const ${ACCESSOR} = (name) => { switch (name) { ${cases.join(" ")} } };\n`;
}
