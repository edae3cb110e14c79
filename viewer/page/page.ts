import { createActions } from "./actions/index.ts";
import { announcement } from "./announce.ts";
import { readReading } from "./reading.ts";
import { sendUnsent } from "./drafts/kept.ts";
import { mountHelp } from "./help/mount.ts";
import { mountSelfcheck } from "./selfcheck/mount.ts";
import { isLoaded, loadRoom, loadRooms } from "./rooms.ts";
import { createSheet } from "./sheet.ts";
import { createShelf } from "./shelf.ts";
import { endOf, tabNews } from "./tab-title.ts";
import type { RunState } from "../api/runs.ts";
import { isSameThing, shownRun, titleOf } from "./shown.ts";
import { mountSignedIn } from "./signed-in.ts";
import { createStore, type State } from "./state.ts";
import { mountWorkers } from "./workers/mount.ts";
import { mountTheme } from "./theme.ts";
import { carryOver, putBackTyped } from "./carried-over.ts";
import { watchPresses } from "./draw/press.ts";
import { writeFrame } from "./frame.ts";
import { mountLanguage } from "./language-choice.ts";
import { messages } from "./language.ts";

/** Puts the page together and shows what its address names. */
export function openPage(): void {
  const element = (id: string): HTMLElement => document.getElementById(id)!;

  /** Whether the sheet still waits for what the address named when the page was loaded. */
  let loading = location.hash !== "";
  const store = createStore();
  const actions = createActions(store, { isLoaded, loadRoom });
  const shelf = createShelf(element("shelf"), actions);
  const sheet = createSheet(element("sheet"), actions, (reading, address) => {
    store.set({ reading });
    // A slider changes it many times a second; browsers refuse an address that changes so often.
    clearTimeout(addressing);
    addressing = setTimeout(() => history.replaceState(null, "", address), 200);
  });
  let addressing: ReturnType<typeof setTimeout> | undefined;

  /** Least time between two redraws of a running sheet for readers who want less motion. */
  const CALM = 1000;
  /** How a run ended that nobody was looking at: the tab says it until somebody comes. */
  let endedUnseen: RunState | null = null;
  document.addEventListener("visibilitychange", () => {
    if (document.hidden || endedUnseen === null) return;
    endedUnseen = null;
    draw(store.get(), store.get());
  });
  const calm = matchMedia("(prefers-reduced-motion: reduce)");
  let lastDrawn = -Infinity;
  let postponed: ReturnType<typeof setTimeout> | undefined;

  function draw(now: State, before: State): void {
    const arrived = !isSameThing(now.shown, before.shown);
    const shelfChanged = now.studies !== before.studies || now.runs !== before.runs || arrived;
    if (shelfChanged) shelf.draw(now);
    const words = announcement(now, before);
    if (words !== null) element("announcer").textContent = words;
    const title = titleOf(now.shown);
    element("sheet").setAttribute("aria-busy", String(now.busy || now.shown.kind === "arriving"));
    endedUnseen = arrived ? null : (endOf(now, before) ?? endedUnseen);
    document.title = [...tabNews(now, endedUnseen), ...(title === null ? [] : [title]), "Trialband"].join(" · ");
    drawSheet(now, before);
    if (arrived) {
      foldShelf();
      // A word that was asked for comes into view; everything else begins at its top.
      const goal = document.querySelector<HTMLElement>("#sheet [data-arrive]");
      // On a page just loaded, the first Tab goes to the skip link, as everywhere.
      if (!loading) (goal ?? element("sheet-title")).focus({ preventScroll: true });
      if (now.shown.kind !== "arriving") loading = false;
      if (goal === null) scrollTo({ top: 0 });
      else goal.scrollIntoView({ block: "center" });
    }
    if (now.trouble !== null && now.trouble !== before.trouble) element("trouble").scrollIntoView({ block: "nearest" });
  }

  function drawSheet(now: State, before: State): void {
    clearTimeout(postponed);
    const progressOnly =
      isSameThing(now.shown, before.shown) &&
      shownRun(now.shown)?.state === "running" &&
      shownRun(before.shown)?.state === "running" &&
      now.trouble === before.trouble;
    const left = calm.matches && progressOnly ? lastDrawn + CALM - performance.now() : 0;
    if (left > 0) {
      postponed = setTimeout(() => drawSheet(store.get(), store.get()), left);
      return;
    }
    lastDrawn = performance.now();
    sheet.draw(now);
  }

  /** On a narrow page the list gives way to what was chosen from it. */
  function foldShelf(): void {
    if (narrow.matches) (element("shelf-fold") as HTMLDetailsElement).open = false;
  }

  const narrow = matchMedia("(max-width: 60rem)");
  narrow.addEventListener("change", () => {
    (element("shelf-fold") as HTMLDetailsElement).open = !narrow.matches;
  });

  watchPresses();
  store.listen(draw);
  element("loading").remove();
  element("not-loaded").remove();
  writeFrame();
  mountLanguage(element("language"), messages.language, () => carryOver(store.get().shown));
  mountTheme(element("theme"));
  mountHelp(element("theme"));
  mountWorkers(element("theme"));
  mountSignedIn(element("signed-in"), element("signed-out"));
  mountSelfcheck(element("sheet"), element("theme"));
  element("skip").addEventListener("click", (event) => {
    event.preventDefault();
    element("sheet").focus();
  });
  /** Takes both what the address names and how it is shown. */
  function follow(): void {
    // What was shown before must not overwrite the address it was left for.
    clearTimeout(addressing);
    store.set({ reading: readReading(location.hash) });
    void actions.goToAddress();
  }
  addEventListener("hashchange", () => {
    loading = false;
    follow();
  });
  addEventListener("keydown", (event) => {
    if (event.key === "Enter" && (event.ctrlKey || event.metaKey)) void actions.runChosen();
  });

  addEventListener("beforeprint", () => sheet.redrawFor(true));
  addEventListener("afterprint", () => sheet.redrawFor(false));
  let width = innerWidth;
  addEventListener("resize", () => {
    // Height alone changes when a phone hides its address bar: nothing is to be drawn anew then.
    if (innerWidth === width) return;
    width = innerWidth;
    sheet.redrawFor(false);
  });

  const hint = element("drop-hint");
  const carriesFile = ({ dataTransfer }: DragEvent): boolean => dataTransfer?.types.includes("Files") ?? false;
  addEventListener("dragover", (event) => {
    if (!carriesFile(event)) return;
    event.preventDefault();
    hint.hidden = false;
  });
  addEventListener("dragleave", (event) => {
    if (event.relatedTarget === null) hint.hidden = true;
  });
  addEventListener("drop", (event) => {
    hint.hidden = true;
    const files = [...(event.dataTransfer?.files ?? [])];
    if (files.length === 0) return;
    event.preventDefault();
    void actions.open(files);
  });

  sendUnsent();
  void actions.refreshLists();
  if (loading) store.set({ shown: { kind: "arriving" } });
  follow();
  putBackTyped(element("sheet"));
  shelf.draw(store.get());
  sheet.draw(store.get());
  // What is asked for next is then there at once; a view that could not be loaded is asked for again when it is shown.
  (globalThis.requestIdleCallback ?? setTimeout)(() => void loadRooms().catch(() => undefined));
}
