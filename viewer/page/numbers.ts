import type { Numbers } from "../present/numbers.ts";
import { speech } from "./language.ts";

// Each asks for the language when it is called: a module that was loaded before the language was set has it too.
/** Numbers as the page prints them, in its language. */
export const fixed: Numbers["fixed"] = (value, decimals) => speech.numbers.fixed(value, decimals);
export const whole: Numbers["whole"] = (value) => speech.numbers.whole(value);
export const significant: Numbers["significant"] = (value, digits) => speech.numbers.significant(value, digits);
export const plain: Numbers["plain"] = (value) => speech.numbers.plain(value);
export const percent: Numbers["percent"] = (share, decimals) => speech.numbers.percent(share, decimals);
export const probabilityText: Numbers["probability"] = (probability) => speech.numbers.probability(probability);
export const freedom: Numbers["freedom"] = (degrees) => speech.numbers.freedom(degrees);
export const rangeWithUnit: Numbers["range"] = (from, to, unit) => speech.numbers.range(from, to, unit);
