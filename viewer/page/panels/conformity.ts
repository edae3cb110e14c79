import type { ConformityRecord, MeasurandRecord, RunRecord } from "../../../engine/index.ts";
import { densities, middleOf } from "../../present/pictures/histogram.ts";
import { limitsScene } from "../../present/pictures/limits.ts";
import { sceneNode } from "../draw/scene.ts";
import { html } from "../draw/node.ts";
import { wideTable } from "../draw/table.ts";
import { overUnit } from "../../present/numbers.ts";
import { fillText } from "../../present/fill.ts";
import { readable } from "../../present/readable.ts";
import { symbolText } from "../../present/symbol.ts";
import { conformityTable } from "../../present/tables/conformity.ts";
import { speech, messages } from "../language.ts";
import { sentenceNodes } from "../draw/symbol.ts";
import type { Panel } from "./panel.ts";

/** Whether the measurand conforms to its tolerance, by both methods (JCGM 106). */
export const conformity: Panel = {
  id: "conformity",
  title: messages.panels.conformity,
  concludes: true,
  appliesTo: ({ measurands }) => Object.values(measurands).some(({ conformity: found }) => found != null),
  render(element, record, name, { reading, width }) {
    const measurand = readable(record.measurands[name]!, reading.unit ?? null);
    const found = measurand.conformity;
    if (found === null) {
      element.replaceChildren(html("p", {}, messages.conformity.absent));
      return;
    }
    const { linear, monteCarlo, agree, sentence, tolerance, rule } = found;
    const words = messages.conformity;
    element.replaceChildren(
      html("p", { class: "sentence", id: "conformity-sentence" }, sentenceNodes(sentence, record)),
      html(
        "p",
        { class: "decision", id: "decision", "data-agree": String(agree) },
        html(
          "strong",
          {},
          agree
            ? fillText(words.byBoth, { decision: words[linear.decision] })
            : fillText(words.byEach, { linear: words[linear.decision], monteCarlo: words[monteCarlo.decision] }),
        ),
        `${words[rule.name]} (${rule.source})${tolerance.basis === null ? "" : `; ${tolerance.basis}`}.`,
      ),
      picture(measurand, found, record, width),
      wideTable(conformityTable(measurand, found, speech), "assessments"),
    );
  },
};

function picture(
  measurand: MeasurandRecord,
  { tolerance, linear, monteCarlo }: ConformityRecord,
  { coverage }: RunRecord,
  width: number,
): HTMLElement {
  const { symbol, unit } = measurand;
  const interval = measurand.monteCarlo.intervals[coverage.interval];
  const histogram = middleOf(measurand.monteCarlo.histogram, interval);
  const heights = densities(histogram, measurand.monteCarlo.trials);
  const most = Math.max(...heights);
  return html(
    "div",
    { class: "figure-plain" },
    sceneNode(
      limitsScene(
        {
          name: fillText(messages.conformity.pictureName, { y: symbolText(symbol) }),
          tolerance,
          limitLabels: [messages.conformity.lowerLimit, messages.conformity.upperLimit],
          shape: heights.map((height, i) => [
            histogram.low + (i + 0.5) * histogram.width,
            most > 0 ? height / most : 0,
          ]),
          lanes: [
            {
              method: "linear",
              label: messages.conformity.laneLinear,
              acceptance: linear.acceptance,
              estimate: linear.estimate,
              interval: measurand.linear.interval,
            },
            {
              method: "monte-carlo",
              label: messages.conformity.laneMonteCarlo,
              acceptance: monteCarlo.acceptance,
              estimate: monteCarlo.estimate,
              interval,
            },
          ],
          width,
          axisLabel: [{ symbol }, overUnit("", unit)],
        },
        speech.numbers,
      ),
    ),
    html("p", { class: "note" }, messages.conformity.key),
  );
}
