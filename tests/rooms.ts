/**
 * What each room may import besides itself, one line a room. In lines of the engine, names are within the engine. A name that
 * ends in .ts is that file alone. What is not here is not allowed, and what is no longer needed goes.
 */
export const ROOMS: Readonly<Record<string, string>> = {
  "engine/conformity": "distributions errors.ts linear model.ts numerics record statistics study tolerance.ts",
  "engine/convolution": "dependence distributions elementary numerics record",
  "engine/coverage": "elementary numerics statistics study",
  "engine/curve": "coverage errors.ts evaluator linear model.ts native prepared random record statistics trials",
  "engine/dependence": "distributions elementary errors.ts numerics random study",
  "engine/distributions": "elementary errors.ts immutable.ts model.ts numerics random units",
  "engine/elementary": "",
  "engine/evaluator": "closest-name.ts errors.ts model.ts native random",
  "engine/explanation":
    "convolution coverage dependence distributions elementary evaluator linear numerics prepared random record statistics trials validation",
  "engine/implicit": "errors.ts model.ts numerics",
  "engine/joint": "coverage numerics record statistics tolerance.ts validation",
  "engine/linear": "coverage dependence distributions errors.ts evaluator model.ts numerics record",
  "engine/low-discrepancy":
    "coverage distributions errors.ts evaluator model.ts numerics prepared random study trials version.ts",
  "engine/native": "model.ts random",
  "engine/numerics": "elementary",
  "engine/paired": "distributions elementary numerics random record statistics",
  "engine/prepared":
    "closest-name.ts convolution coverage dependence distributions errors.ts linear model.ts paired random record study trials validation",
  "engine/random": "elementary numerics",
  "engine/record": "distributions immutable.ts model.ts quantity.ts study",
  "engine/remarks": "dependence numerics record statistics trials",
  "engine/run":
    "conformity convolution coverage curve distributions elementary errors.ts evaluator explanation joint linear model.ts numerics paired prepared record sensitivity sentences statistics study trials validation version.ts",
  "engine/sensitivity": "distributions errors.ts evaluator numerics prepared random record statistics study trials",
  "engine/sentences":
    "conformity convolution dependence distributions errors.ts explanation paired record remarks sensitivity tolerance.ts validation",
  "engine/statistics": "elementary numerics record",
  "engine/study": "distributions errors.ts immutable.ts model.ts random schema-problems.ts tolerance.ts",
  "engine/trials": "coverage dependence errors.ts evaluator joint model.ts paired random record statistics validation",
  "engine/units": "",
  "engine/validation": "coverage linear numerics record",
  "library/node": "engine/index.ts library/workers",
  "library/workers": "engine/index.ts",
  "models/bath": "engine/index.ts models/platinum models/safety",
  "models/calibration": "engine/index.ts models/bath models/evaluation models/platinum models/safety",
  "models/equation": "engine/index.ts models/evaluation models/platinum models/stated-quantity.ts",
  "models/evaluation": "engine/index.ts models/platinum models/safety",
  "models/general": "engine/index.ts models/platinum models/stated-quantity.ts",
  "models/history": "engine/index.ts models/evaluation models/interlaboratory models/platinum",
  "models/interlaboratory": "engine/index.ts models/platinum",
  "models/planning": "engine/index.ts models/sweep",
  "models/platinum": "engine/index.ts models/safety",
  "models/published": "engine/index.ts",
  "models/safety": "engine/index.ts",
  "models/sweep": "engine/index.ts models/equation models/platinum models/safety",
  "viewer/api": "engine/index.ts engine/record models/index.ts",
  "viewer/page": "engine/distributions engine/index.ts models/evaluation models/index.ts viewer/api viewer/present",
  "viewer/present": "engine/distributions engine/index.ts engine/record models/index.ts",
  "viewer/report": "engine/index.ts models/index.ts viewer/present",
  "viewer/terminal": "engine/index.ts models/index.ts viewer/present",
  "server/access": "server/errors.ts server/intake viewer/api",
  "server/dossier": "engine/index.ts server/errors.ts server/intake server/record server/report server/verify",
  "server/documents":
    "engine/index.ts models/index.ts server/canonical.ts server/dossier server/errors.ts server/export server/intake server/one-thread.ts server/record server/report viewer/api viewer/present",
  "server/checks":
    "engine/index.ts server/errors.ts server/intake server/one-thread.ts server/shelves server/store viewer/api",
  "server/cli":
    "engine/index.ts engine/version.ts models/index.ts server/access server/errors.ts server/export server/http server/intake server/openapi server/output-file.ts server/own-model server/package-root.ts server/dossier server/queue server/record server/report server/routes server/runs server/selfcheck server/serve.ts server/shelves server/store server/verify viewer/api viewer/present viewer/report viewer/terminal",
  "server/export":
    "engine/index.ts models/index.ts server/errors.ts server/output-file.ts server/record server/runs server/shelves viewer/present",
  "server/http": "server/access server/errors.ts server/intake viewer/api viewer/present",
  "server/intake": "engine/index.ts models/index.ts server/errors.ts viewer/present",
  "server/openapi": "engine/index.ts engine/record server/access server/errors.ts viewer/api viewer/report",
  "server/own-model":
    "engine/index.ts server/errors.ts server/export server/package-root.ts server/queue server/record server/runs server/shelves server/verify",
  "server/programs": "engine/index.ts models/index.ts",
  "server/queue":
    "engine/index.ts server/access server/canonical.ts server/errors.ts server/package-root.ts server/record server/runs server/shelves viewer/api",
  "server/record": "engine/index.ts engine/record server/canonical.ts server/errors.ts server/intake",
  "server/report": "engine/index.ts models/index.ts server/errors.ts server/record viewer/present viewer/report",
  "server/routes":
    "engine/index.ts engine/record models/index.ts server/access server/canonical.ts server/checks server/documents server/errors.ts server/export server/http server/intake server/one-thread.ts server/openapi server/package-root.ts server/record server/report server/runs server/selfcheck server/shelves server/store server/verify server/watch viewer/api viewer/present",
  "server/runs":
    "engine/index.ts server/errors.ts server/nobody-waits.ts server/one-thread.ts server/package-root.ts server/record server/shelves server/store viewer/api",
  "server/selfcheck":
    "engine/index.ts models/index.ts server/errors.ts server/intake server/package-root.ts server/record server/runs server/shelves server/verify viewer/api viewer/present viewer/report",
  "server/shelves":
    "engine/index.ts models/index.ts server/errors.ts server/intake server/output-file.ts server/package-root.ts server/programs server/record server/store viewer/api viewer/present",
  "server/store": "engine/index.ts server/canonical.ts server/errors.ts server/intake server/record viewer/api",
  "server/watch": "engine/index.ts models/index.ts server/errors.ts server/intake viewer/api",
  "server/verify": "engine/index.ts server/canonical.ts server/errors.ts server/record server/runs server/shelves",
};
