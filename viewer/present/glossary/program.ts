import type { Word } from "./word.ts";

/** The program's own words: what a study is, and what becomes of it. */
export const programWords: readonly Word[] = [
  {
    id: "study",
    symbol: null,
    en: {
      term: "study",
      meaning:
        "What is known before anything is propagated: the model of the measurement, a distribution for every input quantity, and what is asked of the result. A study has versions: each change of what is known makes a new one.",
    },
    de: {
      term: "Studie",
      meaning:
        "Was bekannt ist, bevor etwas fortgepflanzt wird: das Modell der Messung, eine Verteilung für jede Eingangsgröße und was vom Ergebnis verlangt wird. Eine Studie hat Fassungen: jede Änderung des Bekannten ergibt eine neue.",
    },
    sources: [],
  },
  {
    id: "draft",
    symbol: null,
    en: {
      term: "draft",
      meaning:
        "A study that is being written and was not run yet. It is kept as it stands, complete or not, until it is run or discarded.",
    },
    de: {
      term: "Entwurf",
      meaning:
        "Eine Studie, an der geschrieben wird und die noch nicht gerechnet wurde. Sie bleibt, wie sie ist, vollständig oder nicht, bis sie gerechnet oder verworfen wird.",
    },
    sources: [],
  },
  {
    id: "run",
    symbol: null,
    en: {
      term: "run",
      meaning:
        "One propagation of a study: its trials are drawn, its linear budget is computed, and both are compared. A run keeps the version of the study that it was made from.",
    },
    de: {
      term: "Lauf",
      meaning:
        "Eine Fortpflanzung einer Studie: ihre Versuche werden gezogen, ihr lineares Budget wird berechnet und beides verglichen. Ein Lauf behält die Fassung der Studie, aus der er entstand.",
    },
    sources: [],
  },
  {
    id: "record",
    symbol: null,
    en: {
      term: "record",
      meaning:
        "What a run leaves: the study in full, every figure with its standard error, the seed, the versions and the digests that tie them together. From a record the run reproduces exactly, bit for bit.",
    },
    de: {
      term: "Protokoll",
      meaning:
        "Was ein Lauf hinterlässt: die ganze Studie, jeden Wert mit seinem Standardfehler, den Startwert, die Programmversionen und die Prüfsummen, die alles verbinden. Aus dem Protokoll lässt sich der Lauf Bit für Bit wiederholen.",
    },
    sources: ["ISO/IEC 17025:2017, 7.5"],
  },
  {
    id: "sheet",
    symbol: null,
    en: {
      term: "evidence sheet",
      meaning:
        "A record as a person reads it: the verdict, the reasons for it, the budget and how the figures were made.",
    },
    de: {
      term: "Nachweisblatt",
      meaning:
        "Ein Protokoll, wie ein Mensch es liest: das Urteil, seine Gründe, das Budget und wie die Werte entstanden sind.",
    },
    sources: [],
  },
  {
    id: "verdict",
    symbol: null,
    en: {
      term: "validated, not validated",
      meaning:
        "The linear budget is validated if both endpoints of its coverage interval agree with those of the Monte Carlo method within the numerical tolerance δ. Otherwise it is not, and the sheet says why.",
    },
    de: {
      term: "validiert, nicht validiert",
      meaning:
        "Das lineare Budget ist validiert, wenn beide Endpunkte seines Überdeckungsintervalls mit denen der Monte-Carlo-Methode innerhalb der numerischen Toleranz δ übereinstimmen. Sonst ist es das nicht, und das Blatt sagt, warum.",
    },
    sources: ["JCGM 101:2008, 8.1"],
  },
  {
    id: "survey",
    symbol: null,
    en: {
      term: "survey of a bath",
      meaning:
        "The log of thermometers moved about in a bath, with the steps that say which stood where and when. It gives the stability, the vertical and the horizontal temperature differences of the zone in which probes are compared.",
    },
    de: {
      term: "Vermessung eines Bades",
      meaning:
        "Die Aufzeichnung von Thermometern, die im Bad versetzt werden, mit den Schritten: welches wann wo stand. Sie ergibt die Stabilität sowie die senkrechten und waagerechten Temperaturunterschiede der Zone, in der verglichen wird.",
    },
    sources: [],
  },
  {
    id: "evidence",
    symbol: null,
    en: {
      term: "evidence",
      meaning:
        "What a statement about an input quantity rests on: a log, a certificate, a data sheet. A record names the files by their digests.",
    },
    de: {
      term: "Beleg",
      meaning:
        "Worauf eine Angabe zu einer Eingangsgröße beruht: eine Aufzeichnung, ein Kalibrierschein, ein Datenblatt. Ein Protokoll nennt die Dateien mit ihren Prüfsummen.",
    },
    sources: ["JCGM 100:2008, 4.3.1"],
  },
  {
    id: "seed",
    symbol: null,
    en: {
      term: "seed",
      meaning:
        "The text that starts the random numbers. The same study with the same seed gives the same figures, bit for bit; another seed shows how far the figures scatter.",
    },
    de: {
      term: "Startwert",
      meaning:
        "Der Text, mit dem die Zufallszahlen beginnen. Dieselbe Studie mit demselben Startwert ergibt Bit für Bit dieselben Werte; ein anderer Startwert zeigt, wie weit die Werte streuen.",
    },
    sources: [],
  },
];
