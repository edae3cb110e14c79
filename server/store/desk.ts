import type { Draft, DraftHead, DraftSent } from "../../viewer/api/drafts.ts";
import type { Laboratory, LaboratoryDefaults } from "../../viewer/api/laboratory.ts";
import type { OwnStudy } from "../../viewer/api/own-studies.ts";
import { calibrationStore, type CalibrationStore } from "./calibrations.ts";
import type { Database } from "./database.ts";
import { discardDraft, draftsOf, readDraft, takeUpDraft, writeDraft } from "./drafts.ts";
import { laboratoryOf, setLaboratory } from "./laboratory.ts";
import { nameOwnStudy, ownStudiesOf, type Naming } from "./own-studies.ts";

/** What a laboratory has on its desk beside its runs: its own studies, calibrations, drafts, and what a new study begins with. */
export interface Desk {
  /** As `ownStudiesOf`. */
  ownStudies(): OwnStudy[];
  /** As `nameOwnStudy`. */
  nameOwnStudy(id: string, naming: Naming, expected: number | null, actor: string | null): OwnStudy;
  /** As `draftsOf`. */
  drafts(): DraftHead[];
  /** As `readDraft`. */
  readDraft(id: string): Draft;
  /** As `writeDraft`. */
  writeDraft(id: string, draft: DraftSent, expected: number | null): DraftHead;
  /** As `discardDraft`. */
  discardDraft(id: string): void;
  /** As `takeUpDraft`. */
  takeUpDraft(id: string): DraftHead;
  readonly calibrations: CalibrationStore;
  laboratory(): Laboratory;
  /** As `setLaboratory`. */
  setLaboratory(defaults: LaboratoryDefaults, expected: number | null, actor: string | null): Laboratory;
}

export const openDesk = (database: Database, at: () => string): Desk => ({
  ownStudies: () => ownStudiesOf(database),
  nameOwnStudy: (id, naming, expected, actor) => nameOwnStudy(database, id, naming, expected, at(), actor),
  drafts: () => draftsOf(database),
  readDraft: (id) => readDraft(database, id),
  writeDraft: (id, draft, expected) => writeDraft(database, id, draft, expected, at()),
  discardDraft: (id) => discardDraft(database, id, at()),
  takeUpDraft: (id) => takeUpDraft(database, id),
  calibrations: calibrationStore(database, at),
  laboratory: () => laboratoryOf(database),
  setLaboratory: (defaults, expected, actor) => setLaboratory(database, defaults, expected, at(), actor),
});
