/** Twenty studies of twenty other models: what a process may have run before. Paths from the root of the checkout. */
export const OTHERS: readonly string[] = [
  "examples/density/check-weight.json",
  "examples/harrowfen/cold-store-4.json",
  "examples/platinum/probe-fit-hf-021.json",
  "examples/platinum/sprt-bath-72.json",
  "examples/platinum/sprt-bath-minus-40.json",
  "examples/platinum/sprt-fixed-points-mercury-gallium.json",
  "examples/platinum/sprt-fixed-points-tin-zinc.json",
  "examples/platinum/two-wire-pasteuriser.json",
  "examples/published/additive-normal.json",
  "examples/published/block-calibrator.json",
  "examples/published/common-term-normal.json",
  "examples/published/comparison-loss-10.json",
  "examples/published/end-gauge.json",
  "examples/published/gauge-block.json",
  "examples/published/impedance.json",
  "examples/published/mass-calibration.json",
  "examples/published/polar-010.json",
  "examples/published/thermometer-line.json",
  "tests/bench/workloads/w2.ts",
  "tests/bench/workloads/w6.ts",
];

export const TRIALS_OF_OTHERS = 50_000;
