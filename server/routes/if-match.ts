import { refused } from "../errors.ts";

/** The version that the writer has seen of what they write, `"3"`; `null` without one, or with `*`. RFC 9110, 13.1.1. */
export function versionSeen(header: string | undefined): number | null {
  if (header === undefined || header.trim() === "*") return null;
  const version = /^\s*"(\d{1,15})"\s*$/.exec(header)?.[1];
  if (version === undefined)
    throw refused("If-Match", header, 'the version that was seen in quotation marks, such as "3", or *');
  return Number(version);
}
