// A plain program: every door, and the same record on one thread and on several.
import assert from "node:assert/strict";
import { createHash } from "node:crypto";
import { InputError, propagate, VERSION } from "trialband";
import { readReadings } from "trialband/evaluation";
import * as internal from "trialband/internal";
import { additive, platinum } from "trialband/models";
import { propagateOnThreads } from "trialband/node";
import density, { study } from "./density.mjs";

const record = propagate(density, study);
const threaded = await propagateOnThreads(new URL("./density.mjs", import.meta.url), study, { threads: 3 });
assert.deepEqual(threaded, record);
assert.equal(internal.VERSION, VERSION);
// One class in every door, or nobody could catch it.
assert.throws(() => additive.build({}), InputError);
assert.throws(() => readReadings({}), InputError);
// IEC 60751:2022, table 1: R(100 °C) of a Pt100 is 138.51 Ω.
assert.ok(Math.abs(platinum.iec60751.resistance(100) - 138.51) < 0.005);
process.stdout.write(createHash("sha256").update(JSON.stringify(record)).digest("hex"));
