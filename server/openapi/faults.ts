import { z } from "zod";
import { refusal } from "../../viewer/api/fault.ts";
import { FAULTS, type FaultCode } from "../errors.ts";
import type { Operation } from "./described.ts";

const CODES = Object.keys(FAULTS) as FaultCode[];

/** Faults that any request can meet, whatever it asks for. */
const ANY: readonly FaultCode[] = ["bad-request", "other-host", "cross-site", "internal"];
/** Those of a request whose sender may not ask, or not for this. */
const WITH_ROLE: readonly FaultCode[] = ["sign-in-needed", "not-allowed"];
/** Those of a request that may have a body. */
const WITH_BODY: readonly FaultCode[] = ["not-json", "too-large", "unsupported-media-type", "bad-input"];

/** `no-such-run` as a name in the document: `NoSuchRun`. */
export const nameOf = (code: FaultCode): string =>
  code.replaceAll(/(?:^|-)(\w)/g, (_, letter: string) => letter.toUpperCase());

/** The refusal of each fault, with its name: RFC 9457 with the code, status, title and address of that fault. */
export const refusals = (): readonly (readonly [name: string, refusal: z.ZodType])[] =>
  CODES.map((code) => {
    const { status, title } = FAULTS[code];
    const own = {
      type: z.literal(`/api/problems/${code}`),
      title: z.literal(title),
      status: z.literal(status),
      code: z.literal(code),
    };
    return [nameOf(code), refusal.extend(own).meta({ description: `${title}.` })] as const;
  });

/** Every fault a route can answer with, by status. */
export function faultsOf({ method, described }: Operation): ReadonlyMap<number, readonly FaultCode[]> {
  const codes = new Set<FaultCode>([
    ...ANY,
    ...WITH_ROLE,
    ...(method === "get" ? [] : WITH_BODY),
    ...(described.query === undefined ? [] : (["bad-input"] as const)),
    ...(described.faults ?? []),
  ]);
  const found = new Map<number, FaultCode[]>();
  for (const code of CODES) {
    if (!codes.has(code)) continue;
    const { status } = FAULTS[code];
    found.set(status, [...(found.get(status) ?? []), code]);
  }
  return found;
}
