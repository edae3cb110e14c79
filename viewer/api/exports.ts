import { z } from "zod";

const LANGUAGES = "en or de";

/** The query of `GET /api/runs/:id/workbook` and `POST /api/records/workbook` */
export const workbookQuery = z.object({
  language: z.enum(["en", "de"], LANGUAGES).default("en").describe("Language of the words; figures are the same"),
});

const FORMATS = "parquet or npy";

/** The query of `GET /api/runs/:id/trials` */
export const trialsQuery = z.object({
  format: z.enum(["parquet", "npy"], FORMATS).describe("Apache Parquet, or NumPy's NPY"),
});
