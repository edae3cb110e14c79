import { surveyHistory } from "../survey/history.ts";
import { words } from "../later-words.ts";
import { createEvidenceForm, type EvidenceView, type FormContext, type FormParts } from "../evidence/frame.ts";
import { writeAddress } from "../address.ts";
import { createBathPart } from "./bath-part.ts";
import { documentOf, emptySetUp, setUpOf, type SetUp } from "./draft.ts";
import { createLogged } from "./logged.ts";
import { createLogPart } from "./log-part.ts";
import { takePlan } from "./plan.ts";
import { createPositionPart } from "./position-part.ts";
import { controlOf, inWords, stillMissing } from "./problem-places.ts";
import { createStepPart } from "./step-part.ts";
import { createThermometerPart } from "./thermometer-part.ts";

let view: EvidenceView | null = null;

/** The one view of the page, made when it is first asked for: what is being typed outlives a look at something else. */
export const setUpView = (): EvidenceView =>
  (view ??= createEvidenceForm<SetUp>({
    kind: "survey",
    heading: words.survey.kindList,
    title: words.frame.setUp,
    evaluate: words.surveySetup.evaluate,
    empty: emptySetUp,
    draftOf: setUpOf,
    documentOf,
    placeOf: controlOf,
    inWords,
    missing: stillMissing,
    address: (id) => ({ kind: "survey-setup", id }),
    versionAddress: ({ digests }) => ({ kind: "survey", id: digests }),
    history: surveyHistory,
    parts,
  }));

/** A survey's own parts: from the bare log to what a study takes. */
function parts(context: FormContext<SetUp>): FormParts {
  const { draft, changed } = context;
  const logged = createLogged(context, drawLog, (stated) => {
    const said = takePlan(draft(), stated);
    stepPart.say(said);
  });
  const logPart = createLogPart({
    add: logged.take,
    removeFile: logged.remove,
    changed: () => {
      changed();
      context.redraw();
      void logged.read();
    },
  });
  const thermometerPart = createThermometerPart((redrawn) => {
    changed();
    if (redrawn) thermometerPart.draw(draft());
    drawLog();
    void logged.read();
  });
  const positionPart = createPositionPart(() => {
    changed();
    stepPart.draw(draft(), logged.series());
  });
  const stepPart = createStepPart(changed);
  const bathPart = createBathPart(changed);

  /** What depends on the log as it was read: the tables that someone may be typing into stay. */
  function drawLog(): void {
    logPart.draw(draft(), context.files(), logged.looks, logged.series()?.notes ?? []);
    stepPart.draw(draft(), logged.series());
  }

  return {
    head: bathPart.head,
    sections: [logPart.element, thermometerPart.element, positionPart.element, stepPart.element, bathPart.element],
    draw: () => {
      drawLog();
      thermometerPart.draw(draft());
      positionPart.draw(draft());
      bathPart.draw(draft());
    },
    opened: logged.opened,
    saved: ({ versions }) => {
      location.hash = writeAddress({ kind: "survey", id: versions[0]!.digests });
    },
    take: logged.take,
  };
}
