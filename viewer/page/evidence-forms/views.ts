import type { FormKind } from "../../api/evidence-evaluation.ts";
import type { EvidenceView } from "../evidence/frame.ts";
import { certificateView } from "./certificate-form.ts";
import { immersionView } from "./immersion-form.ts";
import type { StudyDoor } from "./into-study.ts";
import { readingsView } from "./readings-form.ts";

const MAKERS = {
  readings: readingsView,
  immersion: immersionView,
  certificate: certificateView,
} satisfies Record<FormKind, (door: StudyDoor) => EvidenceView>;

const views = new Map<FormKind, EvidenceView>();

/** The one view of each form, made when it is first asked for: what is being typed outlives a look at something else. */
export function evidenceView(kind: FormKind, door: StudyDoor): EvidenceView {
  let view = views.get(kind);
  if (view === undefined) views.set(kind, (view = MAKERS[kind](door)));
  return view;
}

/** The view of a form that is on the page already. */
export const openView = (kind: FormKind): EvidenceView | undefined => views.get(kind);
