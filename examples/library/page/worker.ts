// A worker of the page: it draws trials of the same model.
import { serveTrials } from "trialband/workers";
import study from "../several.ts";

serveTrials(study.model, self);
