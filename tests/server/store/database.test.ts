import { expect, test } from "vitest";
import { openDatabase } from "../../../server/store/database.ts";

test("a row has its columns and nothing else, alone or among others", () => {
  const database = openDatabase(":memory:");
  try {
    expect(database.get("SELECT 1 AS a, 'x' AS b")).toStrictEqual({ a: 1, b: "x" });
    expect(database.all("SELECT 1 AS a, 'x' AS b")).toStrictEqual([{ a: 1, b: "x" }]);
    expect(database.get("SELECT 1 AS a WHERE 0")).toBeUndefined();
  } finally {
    database.close();
  }
});
