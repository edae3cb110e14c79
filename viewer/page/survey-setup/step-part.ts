import type { LogSeries } from "../../api/evidence.ts";
import { html } from "../draw/node.ts";
import { logDrawing } from "./log-drawing.ts";
import { typedMoment, type SetUp, type Step } from "./draft.ts";
import { button, cell, input, select, redrawTyping } from "../evidence/field.ts";

/** Who stood where from when to when: a table beside the drawn log. */
export function createStepPart(changed: () => void): {
  readonly element: HTMLElement;
  readonly draw: (draft: SetUp, series: LogSeries | null) => void;
} {
  const picture = html("div", { class: "setup-picture" });
  const body = html("div", {});
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
    element: html(
      "section",
      { class: "panel", id: "setup-steps", "aria-labelledby": "setup-steps-title" },
      html("h2", { id: "setup-steps-title", tabindex: -1 }, "Steps"),
      html(
        "p",
        { class: "note" },
        "A step is a time through which every thermometer stayed where it was. Swap the pair at each position, so that the thermometers’ own offset cancels.",
      ),
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
        `${end === "from" ? "Beginning" : "End"} of step ${k + 1}`,
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
          `Position of ${name} in step ${k + 1}`,
          select(step.at[name] ?? "", [["", "out of the bath"], ...places], (place) => {
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
          "Remove",
          () => {
            draft.steps.splice(k, 1);
            settle(draft.steps.length === 0 ? "setup-step-add" : `setup-step-${Math.max(0, k - 1)}-remove`);
          },
          { "aria-label": `Remove step ${k + 1}`, class: "quiet small" },
        ),
      ),
    );
  });
  return [
    rows.length === 0
      ? html("p", { class: "note" }, "None yet.")
      : html(
          "div",
          { class: "wide-table", tabindex: 0, role: "region", "aria-label": "Table of steps" },
          html(
            "table",
            { class: "plain typed-grid" },
            html(
              "thead",
              {},
              html(
                "tr",
                {},
                html("th", { scope: "col" }, "step"),
                ["from", "to", ...names].map((head) => html("th", { scope: "col", class: "words" }, head)),
                html("td", {}),
              ),
            ),
            html("tbody", {}, rows),
          ),
        ),
    html(
      "p",
      { class: "buttons" },
      button("setup-step-add", "Add a step", add),
      proposed.length === 0
        ? null
        : button("setup-step-propose", `Propose steps from the log (${proposed.length} plateaus)`, propose),
    ),
    html(
      "p",
      { class: "note" },
      "Moments as the log’s clock shows them, such as 2026-03-02 08:15:00, or seconds of a log that counts from its start. The settling time is taken off by itself.",
    ),
  ];
}
