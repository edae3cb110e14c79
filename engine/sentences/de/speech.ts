import { speechOf } from "../speech.ts";

export const speech = speechOf({ decimalSign: ",", and: "und", lessThan: "weniger als", moreThan: "mehr als" });
