// Shared memory of runs: what a run has taken is its own until it gives it back, and then serves the next.
import { expect, test } from "vitest";
import { drawStudy } from "../../../../server/runs/draw-study.ts";
import { giveRooms, openWorkshop, roomIn, spareBytes } from "../../../../server/runs/pool/rooms.ts";
import { loadModel } from "../../../../server/shelves/model.ts";
import { loadStudyDocument } from "../../../../server/shelves/study.ts";
import { readExample } from "../../../read-example.ts";

test("batches that are kept lie apart, one that is not gives its memory to the next", () => {
  const { room, taken, begin, reuse } = openWorkshop();
  const places = [true, false, true, true].map((kept) => {
    begin();
    const [first, second] = [room(1_500_001), room(9)];
    if (!kept) reuse();
    return { first: taken.indexOf(first.buffer as SharedArrayBuffer), at: first.offset, second: second.offset };
  });
  // Pieces of 4 MiB: two batches in the first, of which the second is taken again, then a piece more.
  expect(places).toEqual([
    { first: 0, at: 0, second: 1_500_008 },
    { first: 0, at: 1_500_024, second: 3_000_032 },
    { first: 0, at: 1_500_024, second: 3_000_032 },
    { first: 1, at: 0, second: 1_500_008 },
  ]);
  const before = spareBytes();
  giveRooms(taken);
  expect(spareBytes() - before).toBe(2 * 2 ** 22);
});

test("arrays of a task lie in its pieces in order, none across two, and what finds no room has memory of its own", () => {
  const pieces = [new SharedArrayBuffer(64), new SharedArrayBuffer(64)];
  const room = roomIn(pieces);
  const places = [40, 17, 24, 40, 8].map((bytes) => {
    const { buffer, offset } = room(bytes);
    return [pieces.indexOf(buffer as SharedArrayBuffer), offset];
  });
  expect(places).toEqual([
    [0, 0],
    [0, 40],
    [1, 0],
    [1, 24],
    [-1, 0],
  ]);
});

test("a run's trials stay as they are while another runs, and serve a third once they are released", async () => {
  const drawn = async (seed: string) => {
    const { study, reference } = await loadStudyDocument(
      { ...readExample("published/additive-normal"), trials: 40_000, seed },
      null,
    );
    return drawStudy(await loadModel(reference), { study, reference }, {}, false);
  };
  const endsOf = ({ gathered, prepared }: Awaited<ReturnType<typeof drawn>>): readonly number[] =>
    gathered.result(Object.keys(prepared.model.measurands)[0]!).intervals.symmetric;
  const one = await drawn("1");
  const ends = endsOf(one);
  const other = await drawn("2");
  expect(endsOf(one)).toEqual(ends);
  expect(endsOf(other)).not.toEqual(ends);
  one.release();
  other.release();
  other.release();
  const spare = spareBytes();
  const again = await drawn("1");
  expect(spareBytes()).toBeLessThan(spare);
  expect(endsOf(again)).toEqual(ends);
  again.release();
  expect(spareBytes()).toBe(spare);
});
