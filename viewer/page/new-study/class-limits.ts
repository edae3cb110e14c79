import { withUnit } from "../../present/numbers.ts";
import { fillText } from "../../present/fill.ts";
import { readTolerance, RequestError } from "../api.ts";
import { html } from "../draw/node.ts";
import { plain } from "../numbers.ts";
import { words } from "../later-words.ts";
import { PAUSE } from "./checker.ts";
import type { ClassParameters } from "./class-tolerance.ts";
import { isFilled, numberOr } from "./typed.ts";

/** The limits of a class, told before anything is run. */
export interface ClassLimits {
  readonly element: HTMLElement;
  /** Asks anew once the reader pauses. */
  readonly show: (parameters: ClassParameters, unit: string) => void;
}

export function createClassLimits(): ClassLimits {
  const element = html("p", { class: "field wide class-limits", role: "status" });
  let timer: ReturnType<typeof setTimeout> | undefined;
  let asked = 0;

  const ask = async (parameters: ClassParameters, unit: string): Promise<void> => {
    const mine = (asked += 1);
    const { class: name, element: of, temperature, nominal } = parameters;
    const put = (text: string): void => {
      if (mine === asked) element.textContent = text;
    };
    if (name === "" || !isFilled(temperature)) return put("");
    try {
      const { lower, upper, basis } = await readTolerance({
        unit: unit.trim(),
        parameters: {
          class: name,
          temperature: numberOr(temperature),
          ...(of === "" ? {} : { element: of }),
          ...(isFilled(nominal) ? { nominal: numberOr(nominal) } : {}),
        },
      });
      const figure = (value: number | null): string =>
        value === null ? "" : withUnit(plain(Number(value.toPrecision(7))), unit.trim());
      put(fillText(words.conformityForm.limitsAre, { from: figure(lower), to: figure(upper), basis: basis ?? "" }));
    } catch (error) {
      if (!(error instanceof RequestError)) throw error;
      // The check of the study says what is wrong, at its field.
      put("");
    }
  };

  return {
    element,
    show: (parameters, unit) => {
      clearTimeout(timer);
      timer = setTimeout(() => void ask(parameters, unit), PAUSE);
    },
  };
}
