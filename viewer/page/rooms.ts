import type { Actions } from "./actions/index.ts";
import type { ChoosableStudy, StudyDoor } from "./evidence-forms/into-study.ts";
import type { State } from "./state.ts";
import type { Shown } from "./shown.ts";

/** A view whose element outlives redraws, because a reader types into it or reads its pictures. */
export type Room<K extends Shown["kind"]> = (
  state: State & { readonly shown: Extract<Shown, { readonly kind: K }> },
) => HTMLElement;

type Loader<K extends Shown["kind"]> = () => Promise<(actions: Actions) => Room<K>>;

/** Views whose code is loaded when they are first asked for, so that a sheet does not wait for what it does not show. */
const LOADERS = {
  draft: async () => {
    const { createForm } = await import("./new-study/form.ts");
    return (actions) => {
      const form = createForm(actions);
      return (state) => form.show(state.shown.start, state);
    };
  },
  import: async () => {
    const { createImport } = await import("./import/view.ts");
    return (actions) => {
      const view = createImport(actions);
      return ({ shown }) => view.show(shown.file);
    };
  },
  study: async () => {
    const { createStudyView } = await import("./study-view/view.ts");
    return (actions) => {
      const view = createStudyView(actions);
      return ({ shown, busy }) => view.show(shown.study, busy);
    };
  },
  comparison: async () => {
    const { createComparison } = await import("./compare/comparison.ts");
    return () => {
      const view = createComparison();
      return ({ shown }) => view.show(shown.runs);
    };
  },
  help: async () => {
    const { createHelp } = await import("./help/view.ts");
    return () => {
      const view = createHelp();
      return ({ shown }) => view.show(shown.word);
    };
  },
  runs: async () => {
    const { createLibrary } = await import("./library/library.ts");
    return (actions) => createLibrary(actions).show;
  },
  workers: async () => {
    const { createWorkers } = await import("./workers/view.ts");
    return () => {
      const view = createWorkers();
      return () => view.show();
    };
  },
  own: async () => {
    const [{ createOwnStudies }, { createOwnStudy }] = await Promise.all([
      import("./own-studies/list.ts"),
      import("./own-studies/one.ts"),
    ]);
    return (actions) => {
      const [all, one] = [createOwnStudies(actions), createOwnStudy(actions)];
      return (state) => (state.shown.id === null ? all.show(state) : one.show(state, state.shown.id));
    };
  },
  laboratory: async () => {
    const { createLaboratory } = await import("./own-studies/laboratory.ts");
    return (actions) => createLaboratory(actions).show;
  },
  calibration: async () => {
    const { createCalibration } = await import("./calibration/view.ts");
    return ({ refreshLists }) => {
      const room = createCalibration(refreshLists);
      return ({ shown }) => room.show(shown);
    };
  },
  outlook: async () => {
    const { createOutlook } = await import("./outlook/view.ts");
    return () => createOutlook().show;
  },
  surveys: async () => {
    const { surveyList } = await import("./survey/list.ts");
    return () => {
      let drawn: { readonly surveys: unknown; readonly element: HTMLElement } | null = null;
      return ({ shown: { surveys } }) => {
        if (drawn?.surveys !== surveys) drawn = { surveys, element: surveyList(surveys) };
        return drawn.element;
      };
    };
  },
  survey: async () => {
    const { createSurveyView } = await import("./survey/view.ts");
    return (actions) => {
      const view = createSurveyView((id, choice, run) => void actions.studyFrom(id, choice, run));
      return ({ shown, busy }) => view.show(shown.shown, busy);
    };
  },
  watch: async () => {
    const { createWatch } = await import("./watch/view.ts");
    return () => {
      const view = createWatch();
      return ({ shown }) => view.show(shown);
    };
  },
  evidence: async () => {
    const { evidenceList } = await import("./evidence-forms/list.ts");
    return () => {
      let drawn: { readonly kept: unknown; readonly element: HTMLElement } | null = null;
      return ({ shown: { kept } }) => {
        if (drawn?.kept !== kept) drawn = { kept, element: evidenceList(kept) };
        return drawn.element;
      };
    };
  },
  "evidence-form": async () => {
    const { evidenceView } = await import("./evidence-forms/views.ts");
    return (actions) => {
      let studies: readonly ChoosableStudy[] = [];
      const door: StudyDoor = { studies: () => studies, take: actions.takeStudy };
      return ({ shown, own, studies: listed }) => {
        studies = [
          ...(own ?? []).map(({ id, name }) => ({ id: `own:${id}`, title: name, own: true })),
          ...(listed ?? []).map(({ id, title }) => ({ id, title, own: false })),
        ];
        return evidenceView(shown.form, door).show(shown.shown);
      };
    };
  },
  "survey-setup": async () => {
    const { setUpView } = await import("./survey-setup/view.ts");
    return () =>
      ({ shown }) =>
        setUpView().show(shown.shown);
  },
} satisfies { readonly [K in Shown["kind"]]?: Loader<K> };

type LazyKind = keyof typeof LOADERS;
/** A room that is given the state it was made for. */
type AnyRoom = (state: State) => HTMLElement;

const loaded = new Map<LazyKind, (actions: Actions) => AnyRoom>();

const isLazy = (kind: Shown["kind"]): kind is LazyKind => Object.hasOwn(LOADERS, kind);

/** Whether the code of a view is there. */
export const isLoaded = (kind: Shown["kind"]): boolean => !isLazy(kind) || loaded.has(kind);

/** Loads the code of a view. */
export async function loadRoom(kind: Shown["kind"]): Promise<void> {
  if (isLazy(kind) && !loaded.has(kind)) loaded.set(kind, (await LOADERS[kind]()) as (actions: Actions) => AnyRoom);
}

/** Loads the code of every view, one after the other: what is asked for next is then there at once. */
export async function loadRooms(): Promise<void> {
  for (const kind of Object.keys(LOADERS) as LazyKind[]) await loadRoom(kind);
  await import("./selfcheck/view.ts");
  await import("./panels/what-if-opened.ts");
}

/**
 * @returns draws the view that the state asks for and returns its element; `null` for a view that is not one of these.
 * Its code has been loaded (`loadRoom`).
 */
export function createRooms(actions: Actions): (state: State) => HTMLElement | null {
  const rooms = new Map<LazyKind, AnyRoom>();
  return (state) => {
    const { kind } = state.shown;
    if (!isLazy(kind)) return null;
    let room = rooms.get(kind);
    if (room === undefined) rooms.set(kind, (room = loaded.get(kind)!(actions)));
    return room(state);
  };
}
