import { serveTrials } from "trialband/workers";
import density from "../density.mjs";

serveTrials(density, self);
