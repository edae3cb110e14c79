/** What the part of the address after # names, so that a link brings back the same view. */
export type Address =
  | { readonly kind: "nothing" }
  | { readonly kind: "study"; readonly id: string }
  | { readonly kind: "run"; readonly id: string; readonly measurand: string | null };

/** Reads `#study=ID`, `#run=ID` or `#run=ID&measurand=NAME`; anything else names nothing. */
export function readAddress(hash: string): Address {
  const fields = new URLSearchParams(hash.replace(/^#/, ""));
  const run = fields.get("run");
  if (run !== null && run !== "") return { kind: "run", id: run, measurand: fields.get("measurand") };
  const study = fields.get("study");
  return study !== null && study !== "" ? { kind: "study", id: study } : { kind: "nothing" };
}

export function writeAddress(address: Address): string {
  if (address.kind === "nothing") return "#";
  const id = encodeURIComponent(address.id).replaceAll("%2F", "/");
  if (address.kind === "study") return `#study=${id}`;
  return `#run=${id}${address.measurand === null ? "" : `&measurand=${encodeURIComponent(address.measurand)}`}`;
}
