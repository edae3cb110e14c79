import { scaleOver } from "./axis.ts";
import { path, px, type Scene } from "./scene.ts";

const WIDTH = 64;
const HEIGHT = 24;

/**
 * The shape of an input's distribution, each picture at its own scale; a constant is a single stroke.
 *
 * @param curve points of the density; none for a constant, and for a distribution without a density
 */
export function inputDensityScene(
  curve: readonly (readonly [number, number])[],
  isConstant: boolean,
  name: string,
): Scene {
  const ground = path("ground", `M0 ${HEIGHT - 0.5}H${WIDTH}`);
  const framed = (marks: Scene["marks"]): Scene => ({ class: "density", width: WIDTH, height: HEIGHT, name, marks });
  // Only a constant is one stroke; a distribution without a density has no shape to show.
  if (curve.length === 0) return framed([path("stroke", isConstant ? `M${WIDTH / 2} 3V${HEIGHT}` : ""), ground]);
  const [from, to] = [curve[0]![0], curve.at(-1)![0]];
  const highest = Math.max(...curve.map((point) => point[1]));
  const middle = curve[Math.floor(curve.length / 2)]![1];
  // A density that grows without bound at its limits is cut, so that its middle stays visible.
  const most = curve[0]![1] === highest || curve.at(-1)![1] === highest ? Math.min(highest, 4 * middle) : highest;
  const x = scaleOver([from, to], [5, WIDTH - 5]);
  const y = scaleOver([0, most], [HEIGHT - 1, 3]).clamp(true);
  const points = curve.map(([value, density]) => `${px(x(value))} ${px(y(density))}`);
  return framed([
    path("shape", `M${px(x(from))} ${HEIGHT - 1}L${points.join("L")}L${px(x(to))} ${HEIGHT - 1}Z`),
    ground,
  ]);
}
