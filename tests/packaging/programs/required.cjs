// CommonJS: Node.js requires the same modules (20.19, 22.12 and later).
const assert = require("node:assert/strict");
const { propagate } = require("trialband");
const { default: density, study } = require("./density.mjs");

assert.equal(propagate(density, study).measurands.density.validation.validated, false);
