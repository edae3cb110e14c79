import type { RunRecord } from "../../../engine/index.ts";
import { fillText } from "../fill.ts";
import { overUnit, withUnit } from "../numbers.ts";
import type { Speech } from "../statement.ts";
import { symbolText } from "../symbol.ts";
import { shownOfGrid, type Swept } from "../tables/sweep.ts";
import { linesScene } from "./lines.ts";
import type { Scene } from "./scene.ts";

/** U over the first quantity of a grid, a line for each value of the second, or some of them if there are many. */
export function gridScene(
  { sweep, measurands }: Pick<RunRecord, "sweep" | "measurands">,
  name: string,
  swept: Swept,
  size: { readonly width: number; readonly height: number },
  { messages, numbers }: Speech,
): Scene {
  const { quantity, unit, second } = sweep!;
  const { symbol } = measurands[name]!;
  const values = shownOfGrid(swept);
  return linesScene(
    {
      name: fillText(messages.sweep.gridPictureName, { y: symbolText(symbol), quantity, second: second!.quantity }),
      titles: [overUnit(quantity, unit), [{ symbol: "U" }, overUnit("", swept.unit)]],
      lines: values.map((value, i) => ({
        label: withUnit(numbers.plain(value), second!.unit),
        points: swept.results
          .filter((result) => result.second === value)
          .map(({ at, result }) => [at, result.linear.expandedUncertainty] as const),
        look: i === 0 || i === values.length - 1 ? "trials-line thick" : "trials-line",
        marked: false,
      })),
      ...size,
      from: 0,
    },
    numbers,
  );
}
