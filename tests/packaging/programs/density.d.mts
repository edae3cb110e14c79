import type { Model, StudyOf } from "trialband";

declare const density: Model<"mass" | "volume", "density", never>;
export default density;
export declare const study: StudyOf<"mass" | "volume">;
