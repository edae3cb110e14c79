import type { Group } from "../dependence/group.ts";
import type { Model } from "../model.ts";
import type { GeneratorFamily, Substream } from "../random/stream.ts";

/** Everything that may influence the draws of a study's inputs. */
export interface DrawSource {
  readonly model: Pick<Model, "inputs">;
  /** Every input of the model, each in one group. */
  readonly groups: readonly Group[];
  readonly seed: string;
  readonly generator: GeneratorFamily;
}

/** A group and the positions of its members. */
export interface PlacedGroup {
  readonly group: Group;
  /** Its members' indices among the model's inputs. */
  readonly places: readonly number[];
}

/** A group whose substreams are open. */
export interface GroupDraw extends PlacedGroup {
  /**
   * Writes the first `count` trials of a block.
   *
   * @param columns one column for each input of the model; the members' columns are written
   * @returns the members' substreams from which it drew
   */
  draw(columns: readonly Float64Array[], block: number, count: number): readonly Substream[];
}

export function placedGroups({ model, groups }: Pick<DrawSource, "model" | "groups">): PlacedGroup[] {
  const inputs = Object.keys(model.inputs);
  return groups.map((group) => ({ group, places: group.members.map((name) => inputs.indexOf(name)) }));
}

/**
 * Opens every group's draws.
 *
 * @param suffix appended to the name of every input's stream; another suffix gives independent draws
 */
export function openDraws(source: DrawSource, suffix = ""): GroupDraw[] {
  const { seed, generator } = source;
  return placedGroups(source).map(({ group, places }) => {
    const streams = group.members.map((name) => generator.open(seed, `${name}${suffix}`));
    return {
      group,
      places,
      draw(columns, block, count) {
        const from = streams.map((stream) => stream(block));
        group.sample(
          from,
          places.map((i) => columns[i]!),
          count,
        );
        return from;
      },
    };
  });
}

/** Writes the first `count` trials of a block for every group. */
export function drawBlock(
  draws: readonly GroupDraw[],
  columns: readonly Float64Array[],
  block: number,
  count: number,
): void {
  for (const { draw } of draws) draw(columns, block, count);
}
