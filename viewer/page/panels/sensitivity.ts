import type { IndexRecord, RunRecord, SensitivityRecord } from "../../../engine/index.ts";
import { indexScale, indexScene } from "../../present/pictures/index-bar.ts";
import { sceneNode } from "../draw/scene.ts";
import { html, type Child } from "../draw/node.ts";
import { percent, whole } from "../../present/numbers.ts";
import { swatch } from "../draw/swatch.ts";
import { sentenceNodes, symbolNode } from "../draw/symbol.ts";
import type { Panel } from "./panel.ts";

/** What each input does without the assumption that the model is linear, where the study asks for it. */
export const sensitivity: Panel = {
  id: "sensitivity",
  title: "What each input does, without a straight line",
  appliesTo: ({ measurands }) => Object.values(measurands).some(({ sensitivity: found }) => found != null),
  render(element, record, name) {
    const found = record.measurands[name]!.sensitivity;
    if (found === null) {
      element.replaceChildren(html("p", {}, "The record holds no sensitivity analysis of this measurand."));
      return;
    }
    element.replaceChildren(
      html("p", {}, sentenceNodes(found.sentence, record)),
      table(found, record),
      html(
        "p",
        { class: "note" },
        `First order: the share of u² that would go if this input were known. Total: the share that would stay if all others were. Bars: ${percent(found.confidence, 0)} intervals, on a scale of 0 to 100 %; the small hollow mark is the linear share. `,
        `Estimators: ${found.estimators.firstOrder}; ${found.estimators.total}; intervals by ${found.estimators.interval}; ${whole(found.trials)} trials twice.`,
      ),
    );
  },
};

function table(found: SensitivityRecord, { inputs }: RunRecord): HTMLElement {
  const x = indexScale(found);
  const index = (label: string, of: IndexRecord | null, linear: number): HTMLElement =>
    of === null
      ? html("td", {}, "none")
      : html(
          "td",
          { class: "of-index", "data-value": String(of.value) },
          sceneNode(
            indexScene(
              `${label} ${percent(of.value)}, from ${percent(of.interval[0])} to ${percent(of.interval[1])}; linear share ${percent(linear)}`,
              of,
              linear,
              x,
            ),
          ),
          html("span", { class: "value" }, percent(of.value)),
          html("span", { class: "source" }, `${percent(of.interval[0])} to ${percent(of.interval[1])}`),
        );
  const factors = found.factors
    .filter(({ alone, linearShare }) => linearShare !== 0 || alone.standardUncertainty !== 0)
    .toSorted((a, b) => (b.total?.value ?? b.linearShare) - (a.total?.value ?? a.linearShare));
  const label = (members: readonly string[]): Child =>
    members.map((member, i) => [i === 0 ? "" : " with ", symbolNode(inputs[member]?.symbol ?? member)]);
  return html(
    "div",
    {
      class: "wide-table",
      tabindex: 0,
      role: "region",
      "aria-label": "Sensitivity indices of the inputs",
      id: "sensitivity-table",
    },
    html(
      "table",
      { class: "plain indices" },
      html("caption", {}, "Sensitivity indices of the inputs that vary, beside their linear shares"),
      html(
        "thead",
        {},
        html(
          "tr",
          {},
          html("th", { scope: "col" }, "input"),
          html("th", { scope: "col" }, swatch("linear"), "linear share"),
          html("th", { scope: "col" }, swatch("monte-carlo"), "first order"),
          html("th", { scope: "col" }, swatch("monte-carlo"), "total"),
        ),
      ),
      html(
        "tbody",
        {},
        factors.map(({ inputs: members, linearShare, firstOrder, total }) =>
          html(
            "tr",
            {},
            html(
              "th",
              { scope: "row" },
              label(members),
              html(
                "span",
                { class: "source" },
                members.length === 1 ? (inputs[members[0]!]?.meaning ?? "") : "drawn together",
              ),
            ),
            html("td", { "data-value": String(linearShare) }, percent(linearShare)),
            index("first-order index", firstOrder, linearShare),
            index("total index", total, linearShare),
          ),
        ),
        found.interaction === null
          ? null
          : html(
              "tr",
              { class: "interaction" },
              html("th", { scope: "row" }, "only by acting together"),
              html("td", {}, "–"),
              html(
                "td",
                { "data-value": String(found.interaction.value) },
                percent(found.interaction.value),
                html(
                  "span",
                  { class: "source" },
                  `${percent(found.interaction.interval[0])} to ${percent(found.interaction.interval[1])}`,
                ),
              ),
              html("td", {}, "–"),
            ),
      ),
    ),
  );
}
