/** What a file is that holds no table, and where it would fit. */
export interface OtherFile {
  /** As in "This is …". */
  readonly is: string;
  /** What to do with it, as a sentence without its full stop. */
  readonly instead: string;
}

const PICTURE: OtherFile = {
  is: "a picture",
  instead:
    "Figures cannot be read from a picture: type them into a new study, or paste the cells of the table they come from",
};
const PACKED_DOCUMENT: OtherFile = {
  is: "a document of a word processor",
  instead: "Open it, copy the cells of its table and paste them here",
};
const OPEN_SHEET: OtherFile = {
  is: "a spreadsheet in another format (ODS)",
  instead: "Save it as XLSX or CSV, or copy its cells and paste them here",
};

/** What is accepted in place of another file, with what to do with that one. */
export const acceptedBeside = (accepted: string, instead: string): string => `${accepted}. ${instead}`;

/** First bytes by which formats are told (ISO 32000-1, 7.5.2; ISO/IEC 15948, 5.2; ITU-T T.81, B.1.1; APPNOTE 4.3.7). */
const BEGINNINGS: readonly (readonly [string, OtherFile])[] = [
  [
    "%PDF",
    {
      is: "a PDF document",
      instead:
        "Open it, copy the cells of its table and paste them here; the figures of a certificate are one row of a budget",
    },
  ],
  ["\u0089PNG", PICTURE],
  ["\u00ff\u00d8\u00ff", PICTURE],
  ["GIF8", PICTURE],
  ["II*\0", PICTURE],
  ["MM\0*", PICTURE],
  ["RIFF", PICTURE],
  ["BM", PICTURE],
  [
    "\u00d0\u00cf\u0011\u00e0",
    {
      is: "a spreadsheet or a document in an older format (such as XLS)",
      instead: "Open it and save it as XLSX or CSV, or copy its cells and paste them here",
    },
  ],
  ["{\\rtf", PACKED_DOCUMENT],
];

/** Names within a packed file, whose first entries stand unpacked near its beginning. */
const PACKED: readonly (readonly [string, OtherFile | null])[] = [
  ["application/vnd.oasis.opendocument.spreadsheet", OPEN_SHEET],
  ["application/vnd.oasis.opendocument", PACKED_DOCUMENT],
  ["word/", PACKED_DOCUMENT],
  ["xl/", null],
  ["[Content_Types].xml", null],
];

const looksPacked = (start: string): boolean => start.startsWith("PK\u0003\u0004");

/** Whether a file is a workbook by its first bytes, whatever its name says. */
export const isWorkbook = (start: string): boolean => looksPacked(start) && otherFile(start, "") === null;

/**
 * What a file is if it is no table and no text, or `null`.
 *
 * @param start its first bytes, each as one character
 */
export function otherFile(start: string, name: string): OtherFile | null {
  const known = BEGINNINGS.find(([beginning]) => start.startsWith(beginning));
  if (known !== undefined && !(known[1] === PICTURE && start.startsWith("BM") && !/\.bmp$/i.test(name)))
    return known[1];
  if (/^....ftyp(heic|heix|mif1|avif)/s.test(start)) return PICTURE;
  if (looksPacked(start)) {
    const within = PACKED.find(([entry]) => start.includes(entry));
    return within === undefined
      ? { is: "a packed file", instead: "Unpack it, and open the CSV or XLSX file that it holds" }
      : within[1];
  }
  if (/digitalCalibrationCertificate/.test(start))
    return {
      is: "a digital calibration certificate",
      instead: "Its figures are one row of a budget: fill in a new study, or copy them into the table",
    };
  if (/^\s*<(\?xml|!doctype html|html|svg)/i.test(start))
    return { is: "a page or a document in XML", instead: "Open it, copy the cells of its table and paste them here" };
  return null;
}
