// @module-tag long
import { intervalsCover } from "./ishigami.ts";

// Binomial(60, 0.95) is below 50 once in 3000; seven counts, so once in 400 in all.
intervalsCover(60, 50);
