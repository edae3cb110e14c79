import type { Problem } from "../../../engine/index.ts";
import type { KeptFile, LogLook, LogSeries, OwnEvidence } from "../../api/evidence.ts";
import { writeAddress } from "../address.ts";
import { keepFile, lookAtLogs, readLogSeries, removeEvidence, RequestError, undoEvidenceRemoval } from "../api.ts";
import { html } from "../draw/node.ts";
import { createBathPart } from "./bath-part.ts";
import { documentOf, emptySetUp, setUpOf, type SetUp } from "./draft.ts";
import { button } from "../evidence/field.ts";
import { createKeeper, unsent, type Keeping } from "../evidence/keeping.ts";
import { createLogPart, newThermometer } from "./log-part.ts";
import { createPositionPart } from "./position-part.ts";
import { controlOf, inWords, stillMissing } from "./problem-places.ts";
import { createStepPart } from "./step-part.ts";
import { createThermometerPart } from "./thermometer-part.ts";

/** A survey being set up: one that is kept, or a new one. */
export interface ShownSetUp {
  readonly own: OwnEvidence | null;
}

export interface SetUpView {
  readonly show: (shown: ShownSetUp) => HTMLElement;
  /** Takes files dropped anywhere on the page. */
  readonly take: (files: readonly File[]) => Promise<void>;
}

let view: SetUpView | null = null;

/** The one view of the page, made when it is first asked for: what is being typed outlives a look at something else. */
export const setUpView = (): SetUpView => (view ??= createSetUpView());

/** Sets up a survey in the page: from the bare log to what a study takes. */
function createSetUpView(): SetUpView {
  let shown: ShownSetUp | null = null;
  let draft = emptySetUp();
  let files: readonly KeptFile[] = [];
  let looks = new Map<string, LogLook>();
  let series: LogSeries | null = null;
  let reading = 0;

  const status = html("p", { id: "setup-status", role: "status" });
  const kept = html("span", { class: "note", id: "setup-kept" });
  const problems = html("div", { id: "setup-problems" });
  const versions = html("div", {});
  const keeper = createKeeper(
    () => ({ document: documentOf(draft), files }),
    (keeping, own, error) => tellKeeping(keeping, own, error),
  );
  const changed = (): void => {
    keeper.changed();
    tellMissing();
  };
  const logPart = createLogPart({
    add: (added) => take(added),
    removeFile: (name) => {
      files = files.filter((file) => file.name !== name);
      draft.logs = draft.logs.filter(({ file }) => file !== name);
      draft.thermometers = draft.thermometers.filter(({ file }) => file !== name);
      looks.delete(name);
      changed();
      drawAll();
      void readLog();
    },
    changed: () => {
      changed();
      drawAll();
      void readLog();
    },
  });
  const thermometerPart = createThermometerPart((redrawn) => {
    changed();
    if (redrawn) thermometerPart.draw(draft);
    drawLog();
    void readLog();
  });
  const positionPart = createPositionPart(() => {
    changed();
    stepPart.draw(draft, series);
  });
  const stepPart = createStepPart(changed);
  const bathPart = createBathPart(changed);
  const element = html(
    "div",
    { class: "survey-setup new-study" },
    html(
      "header",
      { class: "sheet-head" },
      html("p", { class: "kind" }, "From the log to the verdict"),
      html("h1", { id: "sheet-title", tabindex: -1 }, "Set up a survey"),
      bathPart.head,
    ),
    logPart.element,
    thermometerPart.element,
    positionPart.element,
    stepPart.element,
    bathPart.element,
    html(
      "section",
      { class: "finish", "aria-label": "Evaluate the survey" },
      status,
      problems,
      html(
        "p",
        { class: "buttons" },
        button("setup-evaluate", "Evaluate", () => void evaluate(), { class: "main" }),
        html("a", { id: "setup-export", class: "button-like", href: "#", download: "" }, "Description as a file"),
        button("setup-print", "Print", () => print()),
        button("setup-remove", "Remove this survey", () => void remove()),
        kept,
      ),
    ),
    versions,
  );

  function drawAll(): void {
    logPart.draw(draft, files, looks, series?.notes ?? []);
    thermometerPart.draw(draft);
    positionPart.draw(draft);
    stepPart.draw(draft, series);
    bathPart.draw(draft);
    drawVersions();
    tellMissing();
  }

  /** What depends on the log as it was read: the tables that someone may be typing into stay. */
  function drawLog(): void {
    logPart.draw(draft, files, looks, series?.notes ?? []);
    stepPart.draw(draft, series);
    tellMissing();
  }

  function drawVersions(): void {
    const own = keeper.own();
    const link = element.querySelector<HTMLAnchorElement>("#setup-export")!;
    link.hidden = own === null;
    element.querySelector<HTMLElement>("#setup-remove")!.hidden = own === null;
    if (own === null) return void versions.replaceChildren();
    link.href = `api/evidence/${own.id}/description`;
    versions.replaceChildren(
      ...(own.versions.length === 0
        ? []
        : [
            html(
              "section",
              { class: "panel", id: "setup-versions" },
              html("h2", {}, "Evaluated before"),
              html(
                "ul",
                { class: "surveys" },
                own.versions.map(({ version, at, title, digests }) =>
                  html(
                    "li",
                    {},
                    html(
                      "a",
                      { href: writeAddress({ kind: "survey", id: digests }), id: `setup-version-${version}` },
                      `Version ${version}: ${title}`,
                    ),
                    html("span", { class: "note" }, at.slice(0, 16).replace("T", " ") + " UTC"),
                  ),
                ),
              ),
            ),
          ]),
    );
  }

  function tellMissing(): void {
    const missing = stillMissing(draft);
    status.replaceChildren(
      ...(missing.length === 0
        ? ["Everything that is needed is there."]
        : [
            `Still missing: `,
            ...missing
              .slice(0, 6)
              .flatMap(({ id, name }, i) => [
                ...(i === 0 ? [] : [", "]),
                html(
                  "button",
                  { type: "button", class: "inline", onclick: () => document.getElementById(id)?.focus() },
                  name,
                ),
              ]),
            missing.length > 6 ? ` and ${missing.length - 6} more.` : ".",
          ]),
    );
  }

  function tellKeeping(keeping: Keeping, own: OwnEvidence | null, error: unknown): void {
    kept.textContent =
      keeping === "kept"
        ? "Draft kept."
        : keeping === "keeping"
          ? "Keeping the draft…"
          : `Draft kept in this browser only: ${error instanceof RequestError ? error.fault.message : String(error)}`;
    if (own === null || shown === null) return;
    const address = writeAddress({ kind: "survey-setup", id: own.id });
    if (element.isConnected && location.hash !== address) history.replaceState(null, "", address);
    drawVersions();
  }

  /** Reads the log as the draft says, once nothing newer is asked. */
  async function readLog(): Promise<void> {
    const mine = (reading += 1);
    if (draft.thermometers.length === 0 || files.length === 0) {
      series = null;
      return drawLog();
    }
    try {
      const found = await readLogSeries({
        document: documentOf(draft),
        files: files.map(({ name, sha256 }) => ({ name, sha256 })),
      });
      if (mine !== reading) return;
      series = found;
      drawLog();
      showProblems([]);
    } catch (error) {
      if (mine !== reading) return;
      if (!(error instanceof RequestError)) throw error;
      series = null;
      drawLog();
      showProblems(error.fault.problems, error.fault.message);
    }
  }

  async function take(added: readonly File[]): Promise<void> {
    try {
      for (const file of added) {
        const one = await keepFile(file);
        const first = files.length === 0;
        // A log in the place of the only one before: everything else stays as it was set up.
        const replaced =
          !first && files.length === 1 && added.length === 1 && draft.steps.length > 0 ? files[0]! : null;
        if (replaced !== null) {
          for (const thermometer of draft.thermometers) thermometer.file = one.name;
          draft.logs = [{ file: one.name, fields: draft.logs[0]?.fields ?? {} }];
          files = [one];
        } else {
          files = [...files.filter(({ name }) => name !== one.name), one];
          if (!draft.logs.some((log) => log.file === one.name)) draft.logs.push({ file: one.name, fields: {} });
        }
        await look(one, replaced === null);
      }
      changed();
      drawAll();
      await readLog();
      document.getElementById("setup-thermometers-title")?.scrollIntoView({ block: "nearest" });
    } catch (error) {
      if (!(error instanceof RequestError)) throw error;
      showProblems(error.fault.problems, error.fault.message);
      document.getElementById("setup-files-problem")!.textContent = problemWords(
        error.fault.problems,
        error.fault.message,
      );
    }
  }

  /** How a file looks; what it seems to have is taken over if it is new to the draft. */
  async function look(file: KeptFile, propose: boolean): Promise<void> {
    const [found] = await lookAtLogs({ files: [{ name: file.name, sha256: file.sha256 }] });
    looks.set(file.name, found!);
    if (!propose || draft.thermometers.some((one) => one.file === file.name)) return;
    const { proposal } = found!;
    const log = draft.logs.find((one) => one.file === file.name)!;
    if (proposal.headingRow === 0) log.fields["headingRow"] = "0";
    if (proposal.time !== null) log.fields["time"] = proposal.time;
    if (proposal.timeOfDay !== null) log.fields["timeOfDay"] = proposal.timeOfDay;
    if (proposal.dates !== null) log.fields["dates"] = proposal.dates;
    for (const { name, column, unit } of proposal.thermometers) {
      const made = newThermometer(draft, file.name, column ?? name, unit);
      draft.thermometers.push(made);
      for (const step of draft.steps) step.at[made.name] = "";
    }
  }

  function showProblems(found: readonly Problem[], message = ""): void {
    for (const field of element.querySelectorAll(".field-problem")) field.textContent = "";
    for (const control of element.querySelectorAll("[aria-invalid]")) control.removeAttribute("aria-invalid");
    if (found.length === 0 && message === "") return void problems.replaceChildren();
    problems.replaceChildren(
      html("p", { class: "field-problem" }, message),
      html(
        "ul",
        { class: "sentences" },
        found.map(({ place, value, accepted }) => {
          const known = controlOf(place, draft);
          const words = `${known?.name ?? place}: found ${value}; accepted: ${inWords(accepted)}`;
          const at = known === null ? null : document.getElementById(`${known.id}-problem`);
          if (at !== null) at.textContent = `Found ${value}; accepted: ${inWords(accepted)}`;
          const control = known === null ? null : document.getElementById(known.id);
          control?.setAttribute("aria-invalid", "true");
          return html(
            "li",
            {},
            control === null
              ? words
              : html(
                  "button",
                  { type: "button", class: "inline", onclick: () => document.getElementById(known!.id)?.focus() },
                  words,
                ),
          );
        }),
      ),
    );
  }

  async function evaluate(): Promise<void> {
    const missing = stillMissing(draft);
    if (missing.length > 0) {
      tellMissing();
      document.getElementById(missing[0]!.id)?.focus();
      return;
    }
    const press = element.querySelector<HTMLButtonElement>("#setup-evaluate")!;
    press.disabled = true;
    try {
      const saved = await keeper.save();
      showProblems([]);
      kept.textContent = `Version ${saved.version} saved.`;
      drawVersions();
      location.hash = writeAddress({ kind: "survey", id: saved.versions[0]!.digests });
    } catch (error) {
      if (!(error instanceof RequestError)) throw error;
      showProblems(error.fault.problems, error.fault.message);
      const first = error.fault.problems.map(({ place }) => controlOf(place, draft)).find((known) => known !== null);
      if (first !== undefined) document.getElementById(first.id)?.focus();
    } finally {
      press.disabled = false;
    }
  }

  async function remove(): Promise<void> {
    const own = keeper.own();
    if (own === null) return;
    await removeEvidence(own.id);
    keeper.begin(null);
    status.replaceChildren(
      `“${own.title}” was removed. `,
      html(
        "button",
        {
          type: "button",
          class: "inline",
          id: "setup-undo",
          onclick: () =>
            void undoEvidenceRemoval(own.id).then((back) => {
              begin({ own: back });
            }),
        },
        "Bring it back",
      ),
    );
    document.getElementById("setup-undo")?.focus();
  }

  function begin(now: ShownSetUp): void {
    shown = now;
    const left = unsent(now.own?.id ?? null);
    const { document: description, files: own } = left ?? now.own ?? { document: null, files: [] };
    draft = description === null ? emptySetUp() : setUpOf(description);
    files = own;
    looks = new Map();
    series = null;
    keeper.begin(now.own);
    kept.textContent = "";
    showProblems([]);
    drawAll();
    if (left !== null) changed();
    void (async () => {
      try {
        for (const file of files) await look(file, false);
        await readLog();
      } catch (error) {
        if (!(error instanceof RequestError)) throw error;
        showProblems(error.fault.problems, error.fault.message);
      }
    })();
  }

  return {
    show: (now) => {
      // A draft that was kept first under its address is the one on the page already.
      const same = now.own !== null && now.own.id === keeper.own()?.id;
      if (shown === null || (now !== shown && !same)) begin(now);
      return element;
    },
    take,
  };
}

const problemWords = (found: readonly Problem[], message: string): string =>
  [
    message,
    ...found.map(({ place, value, accepted }) => `${place}: found ${value}; accepted: ${inWords(accepted)}`),
  ].join(" ");

export type { SetUp };
