// @module-tag long
// JCGM 101, clauses 7.9 and 8, for many seeds.
import { describe } from "vitest";
import { stoppingByChance, verdictNearItsLimit } from "./near-the-limit.ts";

describe("a verdict near its limit", () => verdictNearItsLimit(Array.from({ length: 24 }, (_, i) => String(i + 1))));
describe("the adaptive procedure", () => stoppingByChance(300));
