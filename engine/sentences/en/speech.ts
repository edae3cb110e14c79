import { speechOf } from "../speech.ts";

export const speech = speechOf({ decimalSign: ".", and: "and", lessThan: "less than", moreThan: "more than" });
