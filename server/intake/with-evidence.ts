import type { Evidence, Statement } from "../../engine/index.ts";

/** A statement with its evidence: files, method and figures. */
export function withEvidence(statement: Statement, { method, files, figures }: Evidence): Statement {
  const clipped = (text: string): string => (text.length > 500 ? `${text.slice(0, 499)}…` : text);
  // Differences of temperatures near 100 °C carry digits that mean nothing from the twelfth on, and clutter a study.
  const tidy = (value: number | string): number | string =>
    typeof value === "number" ? Number(value.toPrecision(12)) : clipped(value);
  return {
    ...statement,
    evidence: {
      method: clipped(method),
      files,
      figures: figures.map((figure) => ({ ...figure, value: tidy(figure.value) })),
    },
  };
}
