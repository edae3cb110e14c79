import { expect, test } from "vitest";
import { prepare, readStudy } from "../../../engine/index.ts";
import { batchBytes, openTrials, ownRoom } from "../../../engine/internal.ts";
import { models } from "../../../models/index.ts";
import { readExample } from "../../read-example.ts";

// A thread that writes a batch takes its room in pieces, each from a multiple of 8 on.
test.each([
  { id: "published/additive-normal", count: 10_000, measurands: 1 },
  { id: "published/additive-normal", count: 70_000, measurands: 1 },
  { id: "published/polar-001", count: 10_000, measurands: 2 },
])("a batch of $count trials of $id takes exactly the bytes that batchBytes states", ({ id, count, measurands }) => {
  const study = readStudy(readExample(id));
  const found = models.find((model) => model.id === study.model)!;
  const model = "build" in found ? found.build(study.parameters ?? {}) : found;
  let taken = 0;
  const draw = openTrials(prepare(model, study).source, (bytes) => {
    taken += 8 * Math.ceil(bytes / 8);
    return ownRoom(bytes);
  });
  expect(draw(0, count).measurands).toHaveLength(measurands);
  expect(taken).toBe(batchBytes(measurands, count));
});
