import type { InputRecord } from "../../../engine/index.ts";
import { scaleOver } from "./axis.ts";
import { svg } from "./node.ts";
import { significant, withUnit } from "../../present/numbers.ts";

const WIDTH = 64;
const HEIGHT = 24;

/** The shape of an input's distribution, each picture at its own scale; a constant is a single stroke. */
export function densityPicture({
  curve,
  distribution,
  unit,
  estimate,
  standardUncertainty,
}: InputRecord): SVGSVGElement {
  const frame = (name: string, path: SVGPathElement): SVGSVGElement =>
    svg(
      "svg",
      {
        class: "density",
        width: WIDTH,
        height: HEIGHT,
        viewBox: `0 0 ${WIDTH} ${HEIGHT}`,
        role: "img",
        "aria-label": name,
      },
      path,
      svg("path", { class: "ground", d: `M0 ${HEIGHT - 0.5}H${WIDTH}` }),
    );
  if (curve.length === 0) {
    // Only a constant is one stroke; a distribution without a density has no shape to show.
    return standardUncertainty === 0
      ? frame("all at one value", svg("path", { class: "stroke", d: `M${WIDTH / 2} 3V${HEIGHT}` }))
      : frame(`${distribution}: no density to draw`, svg("path"));
  }
  const [from, to] = [curve[0]![0], curve.at(-1)![0]];
  const highest = Math.max(...curve.map((point) => point[1]));
  const middle = curve[Math.floor(curve.length / 2)]![1];
  // A density that grows without bound at its limits is cut, so that its middle stays visible.
  const most = curve[0]![1] === highest || curve.at(-1)![1] === highest ? Math.min(highest, 4 * middle) : highest;
  const x = scaleOver([from, to], [5, WIDTH - 5]);
  const y = scaleOver([0, most], [HEIGHT - 1, 3]).clamp(true);
  const points = curve.map(([value, density]) => `${x(value).toFixed(1)} ${y(density).toFixed(1)}`);
  const span = `${significant(from, 2)} to ${withUnit(significant(to, 2), unit)}`;
  const around =
    Math.abs(to - from) < 0.02 * Math.abs(estimate) ? `around ${withUnit(significant(estimate, 6), unit)}` : span;
  return frame(
    `density: ${distribution}, ${around}`,
    svg("path", { class: "shape", d: `M${x(from)} ${HEIGHT - 1}L${points.join("L")}L${x(to)} ${HEIGHT - 1}Z` }),
  );
}
