import { words } from "../later-words.ts";
import { fillText } from "../../present/fill.ts";
import type { LogSeries } from "../../api/evidence.ts";
import { html } from "../draw/node.ts";
import { logDrawing } from "./log-drawing.ts";
import { typedMoment, type SetUp, type Step } from "./draft.ts";
import { typedHead, typedTable } from "../evidence/typed-table.ts";
import { button, cell, input, select, redrawTyping } from "../evidence/field.ts";

/** Who stood where from when to when: a table beside the drawn log. */
export function createStepPart(changed: () => void): {
  readonly element: HTMLElement;
  readonly draw: (draft: SetUp, series: LogSeries | null) => void;
  /** Tells what became of a table of steps or positions. */
  readonly say: (text: string) => void;
} {
  const picture = html("div", { class: "setup-picture" });
  const body = html("div", {});
  const said = html("p", { class: "note", role: "status", id: "setup-plan-said" });
  let shown: readonly [SetUp, LogSeries | null] | null = null;
  const drawPicture = (): void => {
    if (shown === null) return;
    const [draft, series] = shown;
    const width = Math.max(280, picture.clientWidth || 680);
    picture.replaceChildren(
      ...(series === null || series.outlines.length === 0
        ? []
        : [
            logDrawing(draft, series, width, (k, end, typed, done) => {
              draft.steps[k]![end] = typed;
              const field = document.getElementById(`setup-step-${k}-${end}`) as HTMLInputElement | null;
              if (field !== null) field.value = typed;
              if (!done) return;
              drawPicture();
              changed();
            }),
          ]),
    );
  };
  let width = innerWidth;
  addEventListener("resize", () => {
    if (innerWidth === width) return;
    width = innerWidth;
    if (picture.isConnected) drawPicture();
  });
  const part = {
    say: (text: string): void => {
      said.textContent = text;
    },
    element: html(
      "section",
      { class: "panel", id: "setup-steps", "aria-labelledby": "setup-steps-title" },
      html("h2", { id: "setup-steps-title", tabindex: -1 }, words.surveySetup.steps),
      html("p", { class: "note" }, words.surveySetup.stepsHelp),
      html("p", { class: "note" }, words.surveySetup.planHelp),
      said,
      picture,
      html("span", { class: "field-problem", id: "setup-steps-problem" }),
      body,
    ),
    draw: (draft: SetUp, series: LogSeries | null): void => {
      shown = [draft, series];
      redrawTyping(body, () => body.replaceChildren(...content(draft, series, drawPicture, part.draw, changed)));
      drawPicture();
      // Drawn once it stands on the page and has a width.
      queueMicrotask(drawPicture);
    },
  };
  return part;
}

function content(
  draft: SetUp,
  series: LogSeries | null,
  drawPicture: () => void,
  drawAll: (draft: SetUp, series: LogSeries | null) => void,
  changed: () => void,
): HTMLElement[] {
  const names = draft.thermometers.map(({ name }) => name);
  const settle = (focus: string): void => {
    drawAll(draft, series);
    changed();
    document.getElementById(focus)?.focus();
  };
  const proposed = series?.plateaus ?? [];
  const propose = (): void => {
    draft.steps = proposed.map(({ from, to }, k) => ({
      from: typedMoment(from),
      to: typedMoment(to),
      at: { ...(draft.steps[k]?.at ?? Object.fromEntries(names.map((name) => [name, draft.reference]))) },
    }));
    settle("setup-step-0-from");
  };
  const add = (): void => {
    const last = draft.steps.at(-1);
    const step: Step = {
      from: last?.to ?? (series === null ? "" : typedMoment(series.outlines[0]?.times[0] ?? 0)),
      to: "",
      at: { ...(last?.at ?? Object.fromEntries(names.map((name) => [name, draft.reference]))) },
    };
    draft.steps.push(step);
    settle(`setup-step-${draft.steps.length - 1}-to`);
  };
  const places = draft.positions.map(({ name }) => [name, name] as const);
  const rows = draft.steps.map((step, k) => {
    const id = `setup-step-${k}`;
    const time = (end: "from" | "to"): HTMLElement =>
      cell(
        `${id}-${end}`,
        fillText(end === "from" ? words.surveySetup.beginningOf : words.surveySetup.endOf, { n: String(k + 1) }),
        input(
          step[end],
          (value) => {
            step[end] = value;
            drawPicture();
            changed();
          },
          { size: "19" },
        ),
      );
    return html(
      "tr",
      {},
      html("th", { scope: "row" }, String(k + 1)),
      time("from"),
      time("to"),
      names.map((name, n) =>
        cell(
          `${id}-at-${n}`,
          fillText(words.surveySetup.positionIn, { name, n: String(k + 1) }),
          select(step.at[name] ?? "", [["", words.surveySetup.outOfBath], ...places], (place) => {
            step.at[name] = place;
            changed();
          }),
        ),
      ),
      html(
        "td",
        {},
        button(
          `${id}-remove`,
          words.library.remove,
          () => {
            draft.steps.splice(k, 1);
            settle(draft.steps.length === 0 ? "setup-step-add" : `setup-step-${Math.max(0, k - 1)}-remove`);
          },
          { "aria-label": fillText(words.surveySetup.removeStep, { n: String(k + 1) }), class: "quiet small" },
        ),
      ),
    );
  });
  return [
    rows.length === 0
      ? html("p", { class: "note" }, words.surveySetup.noSteps)
      : typedTable(
          words.surveySetup.stepTable,
          [
            html("th", { scope: "col" }, words.surveySetup.heads.step),
            ...[words.surveySetup.heads.from, words.surveySetup.heads.to, ...names].map(typedHead),
            html("td", {}),
          ],
          rows,
        ),
    html(
      "p",
      { class: "buttons" },
      button("setup-step-add", words.surveySetup.addStep, add),
      proposed.length === 0
        ? null
        : button("setup-step-propose", fillText(words.surveySetup.propose, { n: String(proposed.length) }), propose),
    ),
    html("p", { class: "note" }, words.surveySetup.moments),
  ];
}
