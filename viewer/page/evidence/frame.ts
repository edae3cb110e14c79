import type { Problem } from "../../../engine/index.ts";
import type { EvidenceKind, EvidenceVersion, KeptFile, OwnEvidence, SavedEvidence } from "../../api/evidence.ts";
import { fillText } from "../../present/fill.ts";
import { writeAddress, type Address } from "../address.ts";
import { removeEvidence, RequestError, undoEvidenceRemoval } from "../api.ts";
import { html, type Child } from "../draw/node.ts";
import { words } from "../later-words.ts";
import { createComplaints, type Place } from "./complaints.ts";
import { button } from "./field.ts";
import { createKeeper, unsent, type Keeping } from "./keeping.ts";

/** What a frame holds of a form: its draft, the files it names, and what is told of them. */
export interface FormContext<Draft> {
  readonly draft: () => Draft;
  readonly files: () => readonly KeptFile[];
  readonly setFiles: (files: readonly KeptFile[]) => void;
  /** Something was changed: the draft is kept, and what is missing is told anew. */
  readonly changed: () => void;
  /** Draws every part anew. */
  readonly redraw: () => void;
  readonly own: () => OwnEvidence | null;
  readonly document: () => Readonly<Record<string, unknown>>;
  readonly missing: () => readonly Place[];
  readonly complain: (problems: readonly Problem[], message?: string) => void;
  /** Shows a refusal of the server; another error is thrown again. */
  readonly refused: (error: unknown) => void;
  /** Makes the draft a version; `null` if it cannot be evaluated, which is then shown. */
  readonly save: () => Promise<OwnEvidence | null>;
  /** Goes on with another description in the place of what is there. */
  readonly replace: (document: Readonly<Record<string, unknown>>) => void;
}

/** The parts of a form. */
export interface FormParts {
  /** Its name and the like, in the head. */
  readonly head: HTMLElement;
  readonly sections: readonly HTMLElement[];
  /** What stands below the buttons, such as the result. */
  readonly below?: readonly HTMLElement[];
  readonly draw: () => void;
  /** After the draft was opened. */
  readonly opened: () => void;
  /** After it became a version. */
  readonly saved: (own: OwnEvidence) => void;
  /** After each change. */
  readonly changed?: () => void;
  readonly take: (files: readonly File[]) => Promise<void>;
}

/** A kind of evidence as its form has it: text as it is typed, so that nothing half-written is lost. */
export interface EvidenceForm<Draft> {
  readonly kind: EvidenceKind;
  readonly title: string;
  /** What stands above the title. */
  readonly heading: string;
  readonly evaluate: string;
  readonly empty: () => Draft;
  readonly draftOf: (document: Readonly<Record<string, unknown>>) => Draft;
  readonly documentOf: (draft: Draft) => Record<string, unknown>;
  /** The field of a place of the description, in the form's words. */
  readonly placeOf: (place: string, draft: Draft) => Place | null;
  readonly inWords: (accepted: string) => string;
  readonly missing: (draft: Draft) => readonly Place[];
  readonly address: (id: string | null) => Address;
  /** Where a version is shown; `null` if nowhere else than here. */
  readonly versionAddress: (version: EvidenceVersion) => Address | null;
  /** Pictures of the versions over time; `null` if there is nothing to draw yet. */
  readonly history?: (versions: readonly EvidenceVersion[]) => HTMLElement | null;
  readonly parts: (context: FormContext<Draft>) => FormParts;
}

/** Evidence being set up: one that is kept, or a new one. */
export interface ShownEvidence {
  readonly own: OwnEvidence | null;
  /** A version to look at in the place of the draft. */
  readonly version?: SavedEvidence;
}

export interface EvidenceView {
  readonly show: (shown: ShownEvidence) => HTMLElement;
  /** Takes files dropped anywhere on the page. */
  readonly take: (files: readonly File[]) => Promise<void>;
}

/** The field of an input that a quantity goes into: "into.referenceDrift". */
function studyPlace(place: string): Place | null {
  const quantity = /^into\.(\w+)$/.exec(place)?.[1];
  return quantity === undefined ? null : { id: `setup-into-${quantity}`, name: words.forms.study.title };
}

/** What is looked at, and the ways on from it. */
const versionBanner = ({ version, at }: SavedEvidence, draft: Address, goOn: () => void): HTMLElement =>
  html(
    "div",
    { class: "version-banner", id: "setup-looked" },
    html(
      "p",
      { role: "status" },
      fillText(words.evidence.looked, { number: String(version), at: `${at.slice(0, 16).replace("T", " ")} UTC` }),
    ),
    html(
      "p",
      { class: "buttons" },
      html(
        "button",
        { type: "button", class: "main", id: "setup-take-version", "data-needs": "run", onclick: goOn },
        words.evidence.takeVersion,
      ),
      html("a", { class: "button-like", href: writeAddress(draft), id: "setup-to-draft" }, words.evidence.toDraft),
    ),
  );

/** Fields that are missing and named at once. */
const NAMED = 6;

/** A form in its frame: how it is kept, what is missing, what is wrong, its versions, its file, its removal. */
export function createEvidenceForm<Draft>(form: EvidenceForm<Draft>): EvidenceView {
  let shown: ShownEvidence | null = null;
  let draft = form.empty();
  let files: readonly KeptFile[] = [];
  /** The version that is looked at; the draft is typed into without one. */
  let looked: SavedEvidence | null = null;

  const banner = html("div", {});
  const status = html("p", { id: "setup-status", role: "status" });
  const kept = html("span", { class: "note", id: "setup-kept" });
  const versions = html("div", {});
  const complaints = createComplaints(
    () => element,
    (place) => studyPlace(place) ?? form.placeOf(place.replace(/^use\./, ""), draft),
    form.inWords,
  );
  const keeper = createKeeper(
    form.kind,
    () => ({ document: form.documentOf(draft), files }),
    (keeping, own, error) => tellKeeping(keeping, own, error),
  );
  const context: FormContext<Draft> = {
    draft: () => draft,
    files: () => files,
    setFiles: (now) => {
      files = now;
    },
    changed: () => {
      if (looked !== null) return;
      keeper.changed();
      tellMissing();
      parts.changed?.();
    },
    redraw: () => draw(),
    own: keeper.own,
    document: () => form.documentOf(draft),
    missing: () => form.missing(draft),
    complain: complaints.show,
    refused: (error) => {
      if (!(error instanceof RequestError)) throw error;
      complaints.show(error.fault.problems, error.fault.message);
    },
    save,
    replace: (document) => {
      draft = form.draftOf(document);
      complaints.show([]);
      context.changed();
      draw();
      parts.opened();
    },
  };
  const parts = form.parts(context);
  const head = html("fieldset", { class: "held" }, parts.head);
  const held = html("fieldset", { class: "held" }, ...parts.sections);
  const below = html("fieldset", { class: "held" }, ...(parts.below ?? []));
  const element = html(
    "div",
    { class: "survey-setup new-study" },
    html(
      "header",
      { class: "sheet-head" },
      html("p", { class: "kind" }, form.heading),
      html("h1", { id: "sheet-title", tabindex: -1 }, form.title),
      banner,
      head,
    ),
    held,
    html(
      "section",
      { class: "finish", "aria-label": form.evaluate },
      status,
      complaints.element,
      html(
        "p",
        { class: "buttons" },
        button("setup-evaluate", form.evaluate, () => void evaluate(), { class: "main" }),
        html("a", { id: "setup-export", class: "button-like", href: "#", download: "" }, words.evidence.asFile),
        button("setup-print", words.evidence.print, () => print()),
        button("setup-remove", words.evidence.remove[form.kind], () => void remove()),
        kept,
      ),
    ),
    below,
    versions,
  );

  function draw(): void {
    parts.draw();
    drawVersions();
    drawLooked();
    tellMissing();
  }

  /** A version is there to be read: its fields take nothing, and what would save it is away. */
  function drawLooked(): void {
    for (const part of [head, held, below]) part.disabled = looked !== null;
    element.classList.toggle("looked-at", looked !== null);
    element.querySelector<HTMLElement>(".finish")!.hidden = looked !== null;
    const own = keeper.own();
    banner.replaceChildren(
      ...(looked === null || own === null ? [] : [versionBanner(looked, form.address(own.id), () => goOn(looked!))]),
    );
  }

  /** Takes a version into the draft, with a way back to the draft that there was. */
  function goOn(version: SavedEvidence): void {
    const own = keeper.own()!;
    const take = (content: Pick<SavedEvidence, "document" | "files">): void => {
      looked = null;
      draft = form.draftOf(content.document);
      files = content.files;
      complaints.show([]);
      draw();
      context.changed();
      parts.opened();
    };
    take(version);
    history.replaceState(null, "", writeAddress(form.address(own.id)));
    const undo = html(
      "button",
      { type: "button", class: "inline", id: "setup-undo-version", onclick: () => take(own) },
      words.evidence.undoVersion,
    );
    status.prepend(`${fillText(words.evidence.tookVersion, { number: String(version.version) })} `, undo, " ");
    document.getElementById("sheet-title")?.focus();
  }

  function drawVersions(): void {
    const own = keeper.own();
    const link = element.querySelector<HTMLAnchorElement>("#setup-export")!;
    link.hidden = own === null;
    element.querySelector<HTMLElement>("#setup-remove")!.hidden = own === null;
    if (own === null) return void versions.replaceChildren();
    link.href = `api/evidence/${own.id}/description`;
    versions.replaceChildren(...(own.versions.length === 0 ? [] : [versionList(own.versions)]));
  }

  function versionList(all: readonly EvidenceVersion[]): HTMLElement {
    return html(
      "section",
      { class: "panel", id: "setup-versions", "aria-labelledby": "setup-versions-title" },
      html("h2", { id: "setup-versions-title" }, words.evidence.versions[form.kind === "survey" ? "survey" : "other"]),
      html(
        "ul",
        { class: "surveys" },
        all.map((one) => {
          const evaluated = form.versionAddress(one);
          const saved = writeAddress({ ...form.address(keeper.own()!.id), version: one.version } as Address);
          const text = fillText(words.evidence.version, { number: String(one.version), title: one.title });
          return html(
            "li",
            { "aria-current": looked?.version === one.version ? "true" : null },
            html(
              "a",
              { href: evaluated === null ? saved : writeAddress(evaluated), id: `setup-version-${one.version}` },
              text,
            ),
            evaluated === null
              ? null
              : html(
                  "a",
                  {
                    href: saved,
                    id: `setup-saved-${one.version}`,
                    "aria-label": fillText(words.evidence.asSavedOf, { number: String(one.version) }),
                  },
                  words.evidence.asSaved,
                ),
            html("span", { class: "note" }, `${one.at.slice(0, 16).replace("T", " ")} UTC`),
          );
        }),
      ),
      form.history?.(all) ?? null,
    );
  }

  function tellMissing(): void {
    const missing = form.missing(draft);
    const lead = ({ id, name }: Place): Child =>
      html("button", { type: "button", class: "inline", onclick: () => document.getElementById(id)?.focus() }, name);
    status.replaceChildren(
      ...(missing.length === 0
        ? [words.evidence.complete]
        : [
            `${words.evidence.missing} `,
            ...missing.slice(0, NAMED).flatMap((one, i) => [...(i === 0 ? [] : [", "]), lead(one) as Node]),
            missing.length > NAMED
              ? ` ${fillText(words.evidence.more, { count: String(missing.length - NAMED) })}`
              : ".",
          ]),
    );
  }

  function tellKeeping(keeping: Keeping, own: OwnEvidence | null, error: unknown): void {
    kept.textContent =
      keeping === "kept"
        ? words.evidence.draftKept
        : keeping === "keeping"
          ? words.evidence.keeping
          : fillText(words.evidence.keptHere, {
              reason: error instanceof RequestError ? error.fault.message : String(error),
            });
    if (own === null || shown === null) return;
    const address = writeAddress(form.address(own.id));
    if (element.isConnected && location.hash !== address) history.replaceState(null, "", address);
    drawVersions();
  }

  async function save(): Promise<OwnEvidence | null> {
    const missing = form.missing(draft);
    if (missing.length > 0) {
      tellMissing();
      document.getElementById(missing[0]!.id)?.focus();
      return null;
    }
    const press = element.querySelector<HTMLButtonElement>("#setup-evaluate")!;
    press.disabled = true;
    try {
      const saved = await keeper.save();
      complaints.show([]);
      kept.textContent = fillText(words.evidence.saved, { number: String(saved.version) });
      tellAddress(saved);
      drawVersions();
      return saved;
    } catch (error) {
      context.refused(error);
      complaints.focusFirst();
      return null;
    } finally {
      press.disabled = false;
    }
  }

  function tellAddress(own: OwnEvidence): void {
    if (element.isConnected) history.replaceState(null, "", writeAddress(form.address(own.id)));
  }

  async function evaluate(): Promise<void> {
    const saved = await save();
    if (saved !== null) parts.saved(saved);
  }

  async function remove(): Promise<void> {
    const own = keeper.own();
    if (own === null) return;
    try {
      await removeEvidence(own.id);
    } catch (error) {
      return context.refused(error);
    }
    keeper.begin(null);
    const undo = (): void => void undoEvidenceRemoval(own.id).then((back) => begin({ own: back }), context.refused);
    status.replaceChildren(
      `${fillText(words.evidence.removed, { title: own.title })} `,
      html("button", { type: "button", class: "inline", id: "setup-undo", onclick: undo }, words.evidence.undo),
    );
    document.getElementById("setup-undo")?.focus();
  }

  function begin(now: ShownEvidence): void {
    shown = now;
    looked = now.version ?? null;
    const left = looked === null ? unsent(form.kind, now.own?.id ?? null) : null;
    const { document: description, files: own } = left ?? looked ?? now.own ?? { document: null, files: [] };
    draft = description === null ? form.empty() : form.draftOf(description);
    files = own;
    keeper.begin(now.own);
    kept.textContent = "";
    complaints.show([]);
    draw();
    if (left !== null) context.changed();
    parts.opened();
  }

  return {
    show: (now) => {
      // A draft that was kept first under its address is the one on the page already.
      const same = now.own !== null && now.own.id === keeper.own()?.id && looked === null && now.version === undefined;
      if (shown === null || (now !== shown && !same)) begin(now);
      return element;
    },
    take: parts.take,
  };
}
