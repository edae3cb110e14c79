import * as figures from "../../present/survey-figures.ts";
import { speech } from "../language.ts";

/** Figures of a survey in the language of the page. */
export const milli = (kelvin: number): string => figures.milli(kelvin, speech.numbers);
export const signed = (kelvin: number): string => figures.signed(kelvin, speech.numbers);
export const inMilli = (kelvin: number, places: number): string => figures.inMilli(kelvin, places, speech.numbers);
export const duration = (seconds: number): string => figures.duration(seconds, speech.numbers);
export const moment = (seconds: number): string => figures.moment(seconds, speech.numbers);
export const beginning = (seconds: number): string => figures.beginning(seconds, speech);
export const millimetres = (value: number): string => figures.millimetres(value, speech.numbers);
