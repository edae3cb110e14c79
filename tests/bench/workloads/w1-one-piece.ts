import model from "./iec-bath-one-piece.ts";
import w1 from "./w1.ts";

/** W1 with its model in one piece. */
export default { model, study: { ...w1.study, model: model.id } };
