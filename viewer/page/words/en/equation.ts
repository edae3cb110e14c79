/** The field for an equation, in English. `{…}` stands for what is filled in. */
export const equationWords = {
  fits: {
    one: "{n} name fits; the arrow keys choose, Enter takes it.",
    other: "{n} names fit; the arrow keys choose, Enter takes it.",
  },
  notChecked: "The equation cannot be checked. {why}",
  noFunctions: "The list of functions cannot be shown. {why}",
  equation: "Equation",
  algebra: "In plain algebra, such as ",
  algebraRest:
    "; one equation a line. A quantity that a line defines may stand in the next ones. Names are offered as you type; Ctrl and space bar list them all.",
  save: "Save as a TypeScript model",
  saveNote: "The same model as a file, for a program or another study: same figures, bit for bit.",
  unitsFit: "The units fit: terms, functions and results agree in dimension.",
  unitsUnchecked: "The units are not checked, since none is stated.",
  unitsPartly: "The units fit as far as they are stated; none is stated for {names}.",
  functions: "Functions, operators and constants",
  sums: "sums, products and quotients; + - * / of the keyboard do as well",
  powers: "powers, which bind before a sign: −a² is −(a²)",
  pi: "the number π",
  names: "Names that fit",
  character: "character {n}",
  line: "line {line}, {character}",
  at: "At {place}",
  expected: ": got {got}; expected {expected}",
} as const;
