import type { FormKind } from "../api/evidence-evaluation.ts";

/** What the part of the address after # names, so that a link brings back the same view. */
export type Address =
  | { readonly kind: "nothing" }
  | { readonly kind: "study"; readonly id: string }
  | { readonly kind: "run"; readonly id: string; readonly measurand: string | null }
  /** The study that is being written in this browser. */
  | { readonly kind: "new" }
  /** A budget table on its way to a study. */
  | { readonly kind: "import" }
  /** The list of surveys. */
  | { readonly kind: "surveys" }
  /** A draft that the server keeps. */
  | { readonly kind: "draft"; readonly id: string }
  /** The laboratory's own studies and drafts, or one of those studies. */
  | { readonly kind: "own"; readonly id: string | null }
  /** What every new study begins with. */
  | { readonly kind: "laboratory" }
  /** Calibrations at several points, or one that is kept. */
  | { readonly kind: "calibration"; readonly id: string | null }
  /** Plans, histories and comparisons. */
  | { readonly kind: "outlook" }
  /** The list of runs. */
  | { readonly kind: "runs" }
  /** The machines that draw for a queue. */
  | { readonly kind: "workers" }
  /** Help and the words used; a word of the glossary, or `null` for its beginning. */
  | { readonly kind: "help"; readonly word: string | null }
  | { readonly kind: "survey"; readonly id: string }
  /** A log as it grows; `null` for the first. */
  | { readonly kind: "watch"; readonly id: string | null }
  /** Readings, immersion checks, certificates and surveys of one's own. */
  | { readonly kind: "evidence" }
  /** One of them in its form; `null` for a new one. */
  | {
      readonly kind: "evidence-form";
      readonly form: FormKind;
      readonly id: string | null;
      /** A version that was saved, to look at; the draft without one. */
      readonly version?: number;
    }
  /** A survey of one's own being set up; `null` for a new one. */
  | { readonly kind: "survey-setup"; readonly id: string | null; readonly version?: number }
  | { readonly kind: "comparison"; readonly id: string; readonly with: string };

/**
 * Reads `#study=ID`, `#run=ID`, `#run=ID&measurand=NAME`, `#compare=ID&with=ID`, `#survey=ID`, `#surveys`,
 * `#survey-setup`, `#survey-setup=ID`, `#survey-setup=ID&version=N`, `#watch`, `#watch=ID`, `#evidence`, `#readings`, `#readings=ID` (`#immersion`, `#certificate` likewise), `#import`, `#draft=ID`, `#own`, `#own=ID`, `#laboratory`, `#calibration`, `#calibration=ID`, `#outlook`, `#runs`, `#workers`, `#help`, `#help=WORD` or `#new`; anything else names
 * nothing.
 */
export function readAddress(hash: string): Address {
  const fields = new URLSearchParams(hash.replace(/^#/, ""));
  const given = (name: string): string | null => (fields.get(name) === "" ? null : fields.get(name));
  const run = given("run");
  if (run !== null) return { kind: "run", id: run, measurand: fields.get("measurand") };
  const [first, second] = [given("compare"), given("with")];
  if (first !== null && second !== null) return { kind: "comparison", id: first, with: second };
  const study = given("study");
  if (study !== null) return { kind: "study", id: study };
  const survey = given("survey");
  if (survey !== null) return { kind: "survey", id: survey };
  const draft = given("draft");
  if (draft !== null) return { kind: "draft", id: draft };
  if (fields.has("own")) return { kind: "own", id: given("own") };
  if (fields.has("laboratory")) return { kind: "laboratory" };
  if (fields.has("calibration")) return { kind: "calibration", id: given("calibration") };
  if (fields.has("outlook")) return { kind: "outlook" };
  const version = /^[1-9]\d{0,8}$/.test(given("version") ?? "") ? { version: Number(given("version")) } : {};
  if (fields.has("survey-setup")) return { kind: "survey-setup", id: given("survey-setup"), ...version };
  const form = FORMS.find((one) => fields.has(one));
  if (form !== undefined) return { kind: "evidence-form", form, id: given(form), ...version };
  if (fields.has("watch")) return { kind: "watch", id: given("watch") };
  if (fields.has("evidence")) return { kind: "evidence" };
  if (fields.has("surveys")) return { kind: "surveys" };
  if (fields.has("runs")) return { kind: "runs" };
  if (fields.has("workers")) return { kind: "workers" };
  if (fields.has("help")) return { kind: "help", word: given("help") };
  if (fields.has("import")) return { kind: "import" };
  return fields.has("new") ? { kind: "new" } : { kind: "nothing" };
}

export function writeAddress(address: Address): string {
  if (address.kind === "nothing") return "#";
  if (isPlain(address)) return `#${address.kind}`;
  if ((address.kind === "own" || address.kind === "calibration") && address.id === null) return `#${address.kind}`;
  if (address.kind === "help") return address.word === null ? "#help" : `#help=${encodeURIComponent(address.word)}`;
  if (address.kind === "watch") return address.id === null ? "#watch" : `#watch=${encodeURIComponent(address.id)}`;
  if (address.kind === "evidence-form" || address.kind === "survey-setup") {
    const name = address.kind === "survey-setup" ? "survey-setup" : address.form;
    const version = address.version === undefined ? "" : `&version=${address.version}`;
    return address.id === null ? `#${name}` : `#${name}=${encodeURIComponent(address.id)}${version}`;
  }
  const id = encodeURIComponent(address.id ?? "").replaceAll("%2F", "/");
  if (
    address.kind === "study" ||
    address.kind === "survey" ||
    address.kind === "draft" ||
    address.kind === "own" ||
    address.kind === "calibration"
  )
    return `#${address.kind}=${id}`;
  if (address.kind === "comparison") return `#compare=${id}&with=${encodeURIComponent(address.with)}`;
  return `#run=${id}${address.measurand === null ? "" : `&measurand=${encodeURIComponent(address.measurand)}`}`;
}

const FORMS: readonly FormKind[] = ["readings", "immersion", "certificate"];

const PLAIN = ["new", "import", "evidence", "surveys", "runs", "workers", "laboratory", "outlook"] as const;
type Plain = Extract<Address, { readonly kind: (typeof PLAIN)[number] }>;

/** Whether an address is its kind and nothing more. */
const isPlain = (address: Address): address is Plain => PLAIN.some((kind) => kind === address.kind);
