import { fillText } from "../../present/fill.ts";
import { lacking } from "../permission.ts";
import { RequestError } from "../api.ts";
import { fromEnglish } from "../draw/from-english.ts";
import { html, type Child } from "../draw/node.ts";
import { speech, messages } from "../language.ts";
import { words } from "../later-words.ts";
import { checkTally, installationFacts, outcomeSentence, selfcheckCommand } from "../../present/selfcheck.ts";
import type { CheckSpeech } from "./check-speech.ts";
import type { CheckLine, SelfcheckSummary } from "../../api/selfcheck.ts";
import { selfcheckEvents } from "./events.ts";
import { linesTable, rowsOf } from "./lines-table.ts";

/** A group as it stands on the page. */
interface Group {
  readonly fold: HTMLDetailsElement;
  readonly tally: HTMLElement;
  readonly body: HTMLTableSectionElement;
  source: string | null;
  passed: number;
  failed: number;
}

/** The view that checks this installation: two buttons, how far it is, and every line as it comes. */
export function createSelfcheckView(said: CheckSpeech): HTMLElement {
  const quick = html(
    "button",
    { type: "button", class: "main", id: "selfcheck-quick", "data-needs": "run", onclick: () => void run(true) },
    words.selfcheck.quick,
  );
  const full = html(
    "button",
    { type: "button", id: "selfcheck-full", "data-needs": "run", onclick: () => void run(false) },
    words.selfcheck.full,
  );
  const stop = html(
    "button",
    { type: "button", class: "quiet", id: "selfcheck-stop", hidden: true, onclick: () => abort?.abort() },
    words.selfcheck.stop,
  );
  const bar = html("progress", { max: 1, value: 0, "aria-label": words.selfcheck.made });
  const step = html("p", { class: "note" });
  const strip = html("div", { class: "run-strip", hidden: true }, step, bar);
  const spoken = html("p", { class: "unseen", role: "status" });
  const outcome = html("div", { class: "check-outcome" });
  const failures = html("div", {});
  const sections = html("div", {});
  const again = html("div", {});
  let abort: AbortController | null = null;
  let groups = new Map<string, Group>();
  let failed: { readonly body: HTMLTableSectionElement; source: string | null } | null = null;

  const addGroup = (id: string, title: string): void => {
    const { table, body } = linesTable(said.spoken(title));
    const tally = html("span", { class: "note" });
    const fold = html(
      "details",
      { class: "check-group", id: `check-${id}`, open: true },
      html("summary", {}, html("h2", {}, said.text(title)), tally),
      table,
    );
    groups.set(id, { fold, tally, body, source: null, passed: 0, failed: 0 });
    sections.append(fold);
  };

  const addLine = (line: CheckLine): void => {
    const group = groups.get(line.group)!;
    group.body.append(...rowsOf(said, line, group.source));
    group.source = line.source;
    group[line.passed ? "passed" : "failed"] += 1;
    group.tally.textContent = tallyOf(group);
    if (line.passed) return;
    if (failed === null) {
      const { table, body } = linesTable(messages.selfcheck.failedLines);
      failed = { body, source: null };
      failures.append(
        html(
          "section",
          { class: "panel", "aria-label": messages.selfcheck.whatFailed },
          html("h2", {}, messages.selfcheck.whatFailed),
          table,
        ),
      );
    }
    failed.body.append(...rowsOf(said, line, failed.source));
    failed.source = line.source;
  };

  /** What passed is folded away once its group is done; what failed stays in sight. */
  const foldPassed = (): void => {
    for (const { fold, failed: bad } of groups.values()) fold.open = bad > 0;
  };

  const finish = (report: SelfcheckSummary): void => {
    foldPassed();
    outcome.replaceChildren(...outcomeOf(report));
    again.replaceChildren(
      html("p", { class: "note" }, words.selfcheck.asFile),
      html("pre", { class: "command" }, html("code", {}, `${selfcheckCommand(report)} --out selfcheck.html`)),
    );
    spoken.textContent = fillText(words.selfcheck.ended, { tally: checkTally(report, speech) });
  };

  const trouble = (message: Child): void => {
    outcome.replaceChildren(
      html(
        "div",
        { class: "trouble", role: "alert" },
        html("h2", {}, words.selfcheck.notEnded),
        html("p", {}, message),
      ),
    );
  };

  const busy = (going: boolean): void => {
    quick.disabled = full.disabled = going;
    stop.hidden = strip.hidden = !going;
    // What had the focus may just have gone.
    if (going) stop.focus();
    else if (document.activeElement === document.body) quick.focus({ preventScroll: true });
  };

  async function run(quickly: boolean): Promise<void> {
    abort = new AbortController();
    groups = new Map();
    failed = null;
    for (const part of [outcome, failures, sections, again]) part.replaceChildren();
    bar.value = 0;
    step.textContent = words.selfcheck.starting;
    spoken.textContent = words.selfcheck.started;
    busy(true);
    try {
      for await (const event of selfcheckEvents(quickly, abort.signal)) {
        switch (event.type) {
          case "group":
            foldPassed();
            addGroup(event.id, event.title);
            spoken.textContent = said.spoken(event.title);
            break;
          case "step":
            bar.max = event.all;
            bar.value = event.done;
            step.textContent =
              event.title === ""
                ? words.selfcheck.closing
                : fillText(words.selfcheck.step, {
                    done: String(event.done),
                    all: String(event.all),
                    title: said.spoken(event.title),
                  });
            break;
          case "line":
            addLine(event.line);
            break;
          case "failed":
            trouble(fromEnglish(event.error.message));
            break;
          case "done":
            finish(event.report);
        }
      }
    } catch (error) {
      if (abort.signal.aborted) trouble(words.selfcheck.stopped);
      else if (error instanceof RequestError) trouble(fromEnglish(error.fault.message));
      else throw error;
    } finally {
      abort = null;
      busy(false);
    }
  }

  let folded: HTMLDetailsElement[] = [];
  addEventListener("beforeprint", () => {
    folded = [...groups.values()].flatMap(({ fold }) => (fold.open ? [] : [fold]));
    for (const fold of folded) fold.open = true;
  });
  addEventListener("afterprint", () => {
    for (const fold of folded) fold.open = false;
  });

  return html(
    "section",
    { class: "selfcheck", id: "selfcheck", "aria-labelledby": "selfcheck-title" },
    html(
      "header",
      { class: "sheet-head" },
      html("p", { class: "kind" }, words.selfcheck.kind),
      html("h1", { id: "selfcheck-title", tabindex: -1 }, words.selfcheck.question),
      html("p", { class: "notes" }, words.selfcheck.about, words.selfcheck.durations),
    ),
    html("p", { class: "buttons" }, quick, full, stop),
    lacking("run"),
    strip,
    spoken,
    outcome,
    failures,
    sections,
    again,
  );
}

const tallyOf = ({ passed, failed }: Pick<Group, "passed" | "failed">): string =>
  `${failed === 0 ? "✓" : "✗"} ${checkTally({ passed, failed }, speech)}`;

function outcomeOf(report: SelfcheckSummary): HTMLElement[] {
  const good = report.failed === 0;
  return [
    html(
      "div",
      { class: "verdict", "data-standing": good ? "validated" : "notValidated" },
      html(
        "p",
        { class: "stamp" },
        html("span", { "aria-hidden": "true" }, good ? "✓" : "✗"),
        html("strong", {}, checkTally(report, speech)),
      ),
      html("p", { class: "sentence" }, outcomeSentence(report, speech)),
    ),
    html(
      "dl",
      { class: "provenance" },
      installationFacts(report, speech).map(([term, value]) =>
        html("div", {}, html("dt", {}, term), html("dd", {}, value)),
      ),
    ),
  ];
}
