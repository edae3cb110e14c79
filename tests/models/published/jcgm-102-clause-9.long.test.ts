// @module-tag long
// JCGM 102:2011, 9.2 and 9.3, every row.
import { COMMON_TERM, commonTerm, POLAR, polarCoordinates } from "./jcgm-102-tables.ts";

commonTerm(COMMON_TERM);
polarCoordinates(POLAR);
