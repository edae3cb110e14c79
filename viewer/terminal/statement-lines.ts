import { InputError, type Statement } from "../../engine/index.ts";
import { distributionKinds, distributionTitle, readStatement } from "../../engine/internal.ts";
import { fillText } from "../present/fill.ts";
import { en } from "../present/messages/en/index.ts";
import { milli, plain, tablePart, type Layout } from "./lines.ts";

const words = en.statements;
const u = fillText(words.uncertainty, { u: "u" });

/** A statement as a row shows it. */
interface Row {
  readonly distribution: string;
  readonly estimate: number;
  /** `null` for a distribution without limits. */
  readonly halfWidth: number | null;
  readonly standardUncertainty: number;
}

function rowOf(statement: Statement): Row {
  const { distribution, budget } = readStatement(statement, "");
  const [low, high] = distribution.support;
  return {
    distribution: distributionTitle(statement.distribution, "en"),
    estimate: budget.estimate,
    halfWidth: Number.isFinite(low) && Number.isFinite(high) && high > low ? (high - low) / 2 : null,
    standardUncertainty: budget.standardUncertainty,
  };
}

/** A statement of a study that is not checked yet; `null` if it cannot be read. */
function statedRow(statement: unknown): Row | null {
  const { distribution } = (statement ?? {}) as { distribution?: unknown };
  const kind = typeof distribution === "string" ? distributionKinds.get(distribution) : undefined;
  const parsed = kind?.statement.safeParse(statement);
  if (parsed?.success !== true) return null;
  try {
    return rowOf(parsed.data as Statement);
  } catch (error) {
    if (error instanceof InputError) return null;
    throw error;
  }
}

/**
 * The evaluated statements, beside what a study states now.
 *
 * @param units of the inputs; temperatures are shown in mK
 * @param stated inputs of the study, and its name
 */
export function statementPart(
  layout: Layout,
  statements: Readonly<Record<string, Statement>>,
  units: Readonly<Record<string, string>>,
  stated: { readonly inputs: Readonly<Record<string, unknown>>; readonly name: string } | null,
): string[] {
  const rows = Object.entries(statements).map(([name, statement]) => {
    const unit = units[name] ?? "";
    const temperature = unit === "°C" || unit === "K";
    const spread = (value: number | null): string => (value === null ? "" : temperature ? milli(value) : plain(value));
    const now = rowOf(statement);
    const before = stated === null ? null : statedRow(stated.inputs[name]);
    const change =
      now.halfWidth === null || before?.halfWidth == null ? "" : signed(spread(now.halfWidth - before.halfWidth));
    return [
      name,
      now.distribution,
      unit === "" ? plain(now.estimate, 9) : `${plain(now.estimate, 9)} ${unit}`,
      spread(now.halfWidth),
      spread(now.standardUncertainty),
      temperature ? "mK" : unit,
      ...(stated === null
        ? []
        : [
            before === null ? words.nothing : before.distribution,
            spread(before?.halfWidth ?? null),
            spread(before?.standardUncertainty ?? null),
            change,
          ]),
    ];
  });
  const columns = [
    [words.input, "left"],
    [words.distribution, "left"],
    [words.estimate, "left"],
    [words.halfWidth, "point"],
    [u, "point"],
    [words.unit, "left"],
    ...(stated === null
      ? []
      : ([
          [words.now, "left"],
          [words.halfWidth, "point"],
          [u, "point"],
          [words.change, "point"],
        ] as const)),
  ] as const;
  const heading = stated === null ? words.caption : fillText(words.captionBeside, { study: stated.name });
  return tablePart(layout, heading, columns, rows);
}

const signed = (text: string): string =>
  text === "" || text.startsWith("\u2212") || Number(text) === 0 ? text : `+${text}`;
