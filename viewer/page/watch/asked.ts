/** What is asked of a bath that is followed, as it is typed. */
export interface WatchAsked {
  /** mK */
  criterion: string;
  /** min */
  time: string;
  window: string;
  dates: string;
  unit: string;
  r0: string;
}

const PLACE = "trialband-watch";
export const NOTHING_ASKED: WatchAsked = { criterion: "", time: "", window: "", dates: "", unit: "", r0: "" };
export type AskedField = keyof WatchAsked;
const FIGURES: readonly AskedField[] = ["criterion", "time", "window", "r0"];

const positive = (typed: string): number | null => {
  const value = Number(typed.trim().replace(",", "."));
  return typed.trim() !== "" && value > 0 && value < 1e7 ? value : null;
};

/** Fields that hold something other than a number greater than 0. */
export const wrongFields = (asked: WatchAsked): AskedField[] =>
  FIGURES.filter((name) => asked[name].trim() !== "" && positive(asked[name]) === null);

/** As the interface is asked: what is empty is left out. */
export const queryOf = (asked: WatchAsked): string =>
  new URLSearchParams(
    (Object.keys(NOTHING_ASKED) as AskedField[]).flatMap((name) => {
      const typed = asked[name].trim();
      return typed === "" ? [] : [[name, FIGURES.includes(name) ? String(positive(typed)) : typed]];
    }),
  ).toString();

/** What was asked last in this browser. */
export function rememberedAsked(): WatchAsked {
  try {
    const kept = JSON.parse(localStorage.getItem(PLACE) ?? "{}") as Partial<Record<AskedField, unknown>>;
    return Object.fromEntries(
      (Object.keys(NOTHING_ASKED) as AskedField[]).map((name) => [
        name,
        typeof kept[name] === "string" ? kept[name] : "",
      ]),
    ) as unknown as WatchAsked;
  } catch {
    return { ...NOTHING_ASKED };
  }
}

export function rememberAsked(asked: WatchAsked): void {
  try {
    localStorage.setItem(PLACE, JSON.stringify(asked));
  } catch {
    // A browser that keeps nothing asks anew.
  }
}
