/**
 * How a budget table was read: what it leaves open, what was taken for granted, what cannot be used. A place whose name begins
 * with `own` holds cells, columns and rows; where they stand is put in German by `tableWords` of the page.
 */
export const budgetTables: Readonly<Record<string, string>> = {
  // Questions about the table as a whole.
  "Which sheet holds the budget?": "Auf welchem Blatt steht das Budget?",
  "More than one has the headings of a budget.": "Mehr als eines hat die Überschriften eines Budgets.",
  "None has headings that are known as those of a budget.":
    "Keines hat Überschriften, die als die eines Budgets bekannt sind.",
  "the only one": "das einzige",
  "Which of the tables of this sheet is the budget?": "Welche der Tabellen dieses Blatts ist das Budget?",
  "Headings of a budget stand in rows {ownRows}.": "Überschriften eines Budgets stehen in den Zeilen {ownRows}.",
  "The one headed by row {ownRow}": "Die mit der Überschrift in Zeile {ownRow}",
  "Which row heads the columns of the budget?": "Welche Zeile enthält die Überschriften des Budgets?",
  "No row names a quantity and its uncertainty in words that are known, such as: quantity, estimate, uncertainty, distribution, divisor, sensitivity coefficient, degrees of freedom.":
    "Keine Zeile nennt eine Größe und ihre Unsicherheit in bekannten Wörtern wie: Größe, Schätzwert, Unsicherheit, Verteilung, Teiler, Empfindlichkeitskoeffizient, Freiheitsgrade.",
  "This looks like a log of readings over time ({ownNumber} rows begin with a time): it belongs to the survey of a bath or to a comparison, not to a budget.":
    "Das sieht nach einer Aufzeichnung von Ablesungen aus ({ownNumber} Zeilen beginnen mit einer Uhrzeit): Sie gehört zur Untersuchung eines Bades oder zu einem Vergleich, nicht zu einem Budget.",
  "Row {ownNumber}: {ownCells}": "Zeile {ownNumber}: {ownCells}",
  "There are no headings": "Es gibt keine Überschriften",
  "Do the inputs stand in columns, one beside the other?": "Stehen die Eingangsgrößen in Spalten nebeneinander?",
  "The first column has the words that usually head columns: {ownWords}.":
    "Die erste Spalte enthält Wörter, die sonst über Spalten stehen: {ownWords}.",
  "Yes: read each column as an input": "Ja: jede Spalte als Eingangsgröße lesen",
  "No: the inputs stand in rows": "Nein: die Eingangsgrößen stehen in Zeilen",
  "Which of the tables side by side is the budget?": "Welche der Tabellen nebeneinander ist das Budget?",
  "The headings name quantities and their uncertainties {ownTimes} times, in {ownColumns}.":
    "Die Überschriften nennen Größen und ihre Unsicherheiten {ownTimes}-mal, in {ownColumns}.",
  "The one in {ownColumns}": "Die in {ownColumns}",
  "Which is the decimal sign of this table?": "Welches ist das Dezimalzeichen dieser Tabelle?",
  "“{ownCell}” in row {ownRow}, column {ownColumn} can be read in two ways.":
    "„{ownCell}“ in Zeile {ownRow}, Spalte {ownColumn} lässt sich auf zwei Arten lesen.",
  "“{ownCell}” in row {ownRow} has a comma, “{ownOther}” in row {ownOtherRow} a point.":
    "„{ownCell}“ in Zeile {ownRow} hat ein Komma, „{ownOther}“ in Zeile {ownOtherRow} einen Punkt.",
  "A comma: 1,5 is one and a half": "Ein Komma: 1,5 ist anderthalb",
  "A point: 1.5 is one and a half": "Ein Punkt: 1.5 ist anderthalb",
  "Are uncertainties divided by the figures in {ownColumn}, or multiplied with them?":
    "Werden Unsicherheiten durch die Zahlen in {ownColumn} geteilt oder mit ihnen multipliziert?",
  "Some are less than 1: “{ownCell}” in row {ownRow}.": "Manche sind kleiner als 1: „{ownCell}“ in Zeile {ownRow}.",
  "Multiplied: 0.58 stands for 1/√3": "Multipliziert: 0,58 steht für 1/√3",
  Divided: "Geteilt",
  "Which column holds the uncertainties?": "Welche Spalte enthält die Unsicherheiten?",
  "No heading names an uncertainty in words that are known.":
    "Keine Überschrift nennt eine Unsicherheit in bekannten Wörtern.",
  "Column {ownColumn}": "Spalte {ownColumn}",
  "Which is the uncertainty: {ownColumns}?": "Welche ist die Unsicherheit: {ownColumns}?",
  "Both have figures in the same rows.": "Beide haben Zahlen in denselben Zeilen.",
  "They do not go together: in row {ownRow} one is {ownRatio} times the other, which is no usual divisor.":
    "Sie passen nicht zusammen: In Zeile {ownRow} ist die eine das {ownRatio}-Fache der anderen, was kein üblicher Teiler ist.",
  // Questions about rows.
  "Is row {ownRow} an input, or does it sum up the rows above it?":
    "Ist Zeile {ownRow} eine Eingangsgröße, oder fasst sie die Zeilen darüber zusammen?",
  "It has a figure and none of what the other rows have beside theirs.":
    "Sie hat eine Zahl und nichts von dem, was die anderen Zeilen neben ihrer haben.",
  "An input": "Eine Eingangsgröße",
  "A total": "Eine Summe",
  "Leave it out": "Weglassen",
  "With which coverage factor were the expanded uncertainties in {ownColumn} multiplied?":
    "Mit welchem Erweiterungsfaktor sind die erweiterten Unsicherheiten in {ownColumn} gebildet?",
  "Nothing in {ownRows} states a factor k.": "Nichts in {ownRows} nennt einen Faktor k.",
  "k = {k}": "k = {k}",
  "They are standard uncertainties (k = 1)": "Es sind Standardunsicherheiten (k = 1)",
  "Of what is the figure of {ownRows} in {ownColumn} the standard deviation?":
    "Wovon ist die Zahl aus {ownRows} in {ownColumn} die Standardabweichung?",
  "The number of readings stands in {ownColumn}: the mean varies by the root of that number less than single readings do.":
    "Die Anzahl der Ablesungen steht in {ownColumn}: Der Mittelwert streut um die Wurzel dieser Anzahl weniger als einzelne Ablesungen.",
  "Of single readings: u is s/√n": "Von einzelnen Ablesungen: u ist s/√n",
  "Of their mean: it is u already": "Von ihrem Mittelwert: es ist schon u",
  "Which distribution does “{ownLetter}” in {ownRows} stand for?":
    "Für welche Verteilung steht „{ownLetter}“ in {ownRows}?",
  "Budgets write it for rectangular and for arcsine, and no divisor tells which.":
    "Budgets schreiben es für die Rechteck- und für die U-förmige Verteilung (Arkussinus), und kein Teiler sagt, welche es ist.",
  "Budgets write it for triangular and for t, and no divisor tells which.":
    "Budgets schreiben es für die Dreieck- und für die t-Verteilung, und kein Teiler sagt, welche es ist.",
  "arcsine (U-shaped)": "Arkussinus (U-förmig)",
  "normal distribution": "Normalverteilung",
  "t-distribution": "t-Verteilung",
  "Which distribution has the quantity of {ownRows}?": "Welche Verteilung hat die Größe aus {ownRows}?",
  "It is evaluated as type B, which names no distribution.":
    "Sie ist nach Typ B ermittelt, was keine Verteilung nennt.",
  "What are the figures of {ownRows} in {ownColumn}?": "Was sind die Zahlen aus {ownRows} in {ownColumn}?",
  "No distribution is named, and no divisor column or other words tell what they state.":
    "Keine Verteilung ist genannt, und weder eine Spalte mit Teilern noch andere Wörter sagen, was sie angeben.",
  "No distribution is named, and no divisor or other words tell what they state.":
    "Keine Verteilung ist genannt, und weder ein Teiler noch andere Wörter sagen, was sie angeben.",
  "The distribution is {ownShape}, and no divisor column or other words tell what they state.":
    "Die Verteilung heißt {ownShape}, und weder eine Spalte mit Teilern noch andere Wörter sagen, was sie angeben.",
  "The distribution is {ownShape}, and no divisor or other words tell what they state.":
    "Die Verteilung heißt {ownShape}, und weder ein Teiler noch andere Wörter sagen, was sie angeben.",
  "Half-widths: the limits lie this far from the estimate": "Halbweiten: so weit liegen die Grenzen vom Schätzwert",
  "Standard uncertainties already": "Schon Standardunsicherheiten",
  "Full widths, from limit to limit": "Volle Breiten, von Grenze zu Grenze",
  "Standard uncertainties": "Standardunsicherheiten",
  "Expanded uncertainties with k = 2": "Erweiterte Unsicherheiten mit k = 2",
  "Half-widths of rectangular distributions": "Halbweiten von Rechteckverteilungen",
  "In which unit are the estimates in {ownColumn}?": "In welcher Einheit stehen die Schätzwerte in {ownColumn}?",
  "They state none, and the uncertainties beside them are in {ownUnits}.":
    "Sie nennen keine, und die Unsicherheiten daneben stehen in {ownUnits}.",
  "In which unit is the sensitivity coefficient {ownNumber} of row {ownRow}?":
    "In welcher Einheit steht der Empfindlichkeitskoeffizient {ownNumber} von Zeile {ownRow}?",
  "The row is in {ownUnit}, the result in {ownResult}, and the coefficient has no unit.":
    "Die Zeile steht in {ownUnit}, das Ergebnis in {ownResult}, und der Koeffizient hat keine Einheit.",
  // What was taken for granted.
  "no estimate: 0": "kein Schätzwert: 0",
  "no sensitivity coefficient: 1": "kein Empfindlichkeitskoeffizient: 1",
  "normal, since no distribution is named": "Normalverteilung, da keine Verteilung genannt ist",
  "no degrees of freedom given: normal": "keine Freiheitsgrade angegeben: Normalverteilung",
  "uncertainty 0: a constant": "Unsicherheit 0: eine Konstante",
  "rectangular, since limits are stated and no distribution":
    "Rechteckverteilung, da Grenzen angegeben sind und keine Verteilung",
  "rectangular, from its divisor {k}": "Rechteckverteilung, nach ihrem Teiler {k}",
  "triangular, from its divisor {k}": "Dreieckverteilung, nach ihrem Teiler {k}",
  "arcsine, from its divisor {k}": "Arkussinusverteilung, nach ihrem Teiler {k}",
  "full width, from its divisor {k}": "volle Breite, nach ihrem Teiler {k}",
  "expanded uncertainty of a rectangular distribution, divided by k = {k}":
    "erweiterte Unsicherheit einer Rechteckverteilung, geteilt durch k = {k}",
  "expanded uncertainty of a triangular distribution, divided by k = {k}":
    "erweiterte Unsicherheit einer Dreieckverteilung, geteilt durch k = {k}",
  "expanded uncertainty of an arcsine distribution, divided by k = {k}":
    "erweiterte Unsicherheit einer Arkussinusverteilung, geteilt durch k = {k}",
  "half-width, by the row's own standard uncertainty": "Halbweite, nach der Standardunsicherheit der Zeile selbst",
  "standard uncertainty, by the row's own standard uncertainty":
    "Standardunsicherheit, nach der Standardunsicherheit der Zeile selbst",
  "a standard uncertainty, by the row's own standard uncertainty":
    "eine Standardunsicherheit, nach der Standardunsicherheit der Zeile selbst",
  "full width, by the row's own standard uncertainty": "volle Breite, nach der Standardunsicherheit der Zeile selbst",
  "expanded with k = {k}, by the row's own standard uncertainty":
    "erweitert mit k = {k}, nach der Standardunsicherheit der Zeile selbst",
  "half-width of a {ownShape} distribution, by the row's own standard uncertainty":
    "Halbweite einer Verteilung ({ownShape}), nach der Standardunsicherheit der Zeile selbst",
  "normal with k = {k}, which is the divisor of limits: is the distribution the right one?":
    "Normalverteilung mit k = {k}, dem Teiler von Grenzen: Ist die Verteilung die richtige?",
  "taken as a standard uncertainty, as evaluations of type A give it":
    "als Standardunsicherheit genommen, wie eine Ermittlung nach Typ A sie gibt",
  "standard deviation of {n} readings, divided by √{ownN}":
    "Standardabweichung von {n} Ablesungen, geteilt durch √{ownN}",
  "estimate in {ownUnit} taken as a difference of temperatures, not counted from another zero":
    "Schätzwert in {ownUnit} als Temperaturdifferenz genommen, nicht von einem anderen Nullpunkt gezählt",
  "half of the distance between the limits": "die Hälfte des Abstands der Grenzen",
  "uncertainty in %, the unit of the row, not a part of the estimate":
    "Unsicherheit in %, der Einheit der Zeile, nicht als Teil des Schätzwerts",
  "{ownCell} taken as it is written, not as a part of the estimate {ownEstimate}":
    "{ownCell} genommen, wie es dasteht, nicht als Teil des Schätzwerts {ownEstimate}",
  "{ownCell} taken as a part of the estimate {ownEstimate}: {ownFigure}":
    "{ownCell} als Teil des Schätzwerts {ownEstimate} genommen: {ownFigure}",
  "k = {ownK}, as “{ownCell}” says": "k = {ownK}, wie „{ownCell}“ sagt",
  "sensitivity coefficient taken in {ownUnit}": "Empfindlichkeitskoeffizient in {ownUnit} genommen",
  // What was compared.
  "not UTF-8: read as Windows-1252": "kein UTF-8: als Windows-1252 gelesen",
  "not used: {ownColumns}": "nicht verwendet: {ownColumns}",
  "left out: {ownRows}": "weggelassen: {ownRows}",
  "cell {ownCell} read as “{ownText}”, as stated by the reader":
    "Zelle {ownCell} als „{ownText}“ gelesen, wie angegeben",
  "taken for sums, not for inputs: {ownRows}": "als Summen genommen, nicht als Eingangsgrößen: {ownRows}",
  "agrees with the inputs: {ownRows}": "stimmt mit den Eingangsgrößen überein: {ownRows}",
  "{ownPlace} is in {ownUnit}, which does not go with {ownOther}":
    "{ownPlace} steht in {ownUnit}, was nicht zu {ownOther} passt",
  "{ownPlace} says {ownFigure}, the row gives {ownOther}": "{ownPlace} nennt {ownFigure}, die Zeile ergibt {ownOther}",
  "{ownRow} says {ownFigures}; with k = 2 the inputs give {ownFigure}":
    "{ownRow} nennt {ownFigures}; mit k = 2 ergeben die Eingangsgrößen {ownFigure}",
  "{ownRow} says {ownFigures}; k = {ownK} and the inputs give {ownFigure}":
    "{ownRow} nennt {ownFigures}; k = {ownK} und die Eingangsgrößen ergeben {ownFigure}",
  "{ownRow} says {ownFigures}; the inputs combine to {ownFigure}":
    "{ownRow} nennt {ownFigures}; die Eingangsgrößen ergeben zusammen {ownFigure}",
  "{ownRow} says {ownFigures}; the inputs above it combine to {ownFigure}":
    "{ownRow} nennt {ownFigures}; die Eingangsgrößen darüber ergeben zusammen {ownFigure}",
  "{ownRow} has the estimate {ownFigure}; the sum of the inputs with their coefficients is {ownOther}":
    "{ownRow} hat den Schätzwert {ownFigure}; die Summe der Eingangsgrößen mit ihren Koeffizienten ist {ownOther}",
  // What is accepted in a cell.
  "an uncertainty; 0 for a quantity taken as exact": "eine Unsicherheit; 0 für eine Größe, die als exakt gilt",
  "an uncertainty of at least 0": "eine Unsicherheit von mindestens 0",
  "a number: this is a formula's error, to be mended in the spreadsheet":
    "eine Zahl: das ist der Fehler einer Formel, der im Tabellenblatt zu beheben ist",
  "a number with a point as its decimal sign, as the table has it":
    "eine Zahl mit Dezimalpunkt, wie ihn die Tabelle hat",
  "a number with a comma as its decimal sign, as the table has it":
    "eine Zahl mit Dezimalkomma, wie es die Tabelle hat",
  "a figure in the unit of the row, or a percentage of the row's own estimate":
    "eine Zahl in der Einheit der Zeile oder ein Prozentsatz des Schätzwerts der Zeile",
  "a number alone: the uncertainty in brackets belongs into a column of its own":
    "nur eine Zahl: die Unsicherheit in Klammern gehört in eine eigene Spalte",
  "a divisor greater than 0, such as 2, 1.73 or √3": "ein Teiler größer als 0, etwa 2, 1,73 oder √3",
  "degrees of freedom greater than 0, or ∞": "Freiheitsgrade größer als 0, oder ∞",
  "a whole number of readings, at least 1": "eine ganze Anzahl von Ablesungen, mindestens 1",
  "beside it the number of readings, of which this is the standard deviation":
    "daneben die Anzahl der Ablesungen, deren Standardabweichung das ist",
  "normal, rectangular, triangular, arcsine (U-shaped) or t":
    "Normal-, Rechteck-, Dreieck-, Arkussinus- (U-förmig) oder t-Verteilung",
  "1, or nothing, for a figure stated as a standard uncertainty":
    "1 oder nichts, bei einer Zahl, die als Standardunsicherheit angegeben ist",
  "at least one quantity below the headings": "mindestens eine Größe unter den Überschriften",
  "{ownK}, the coverage factor stated with the figure": "{ownK}, der Erweiterungsfaktor neben der Zahl",
  "{ownRoot}, the root of the number of readings, or nothing":
    "{ownRoot}, die Wurzel aus der Anzahl der Ablesungen, oder nichts",
  "a unit that goes with {ownUnit}, or a sensitivity coefficient that converts it":
    "eine Einheit, die zu {ownUnit} passt, oder ein Empfindlichkeitskoeffizient, der sie umrechnet",
  "a coefficient in {ownUnit}, or in multiples of both": "ein Koeffizient in {ownUnit} oder in Vielfachen davon",
  "a figure in {ownUnit}, or in a multiple of it": "eine Zahl in {ownUnit} oder in einem Vielfachen davon",
  "a figure in {ownUnit}: a relative figure is a part of the estimate, which must then stand in the row and not be 0":
    "eine Zahl in {ownUnit}: eine relative Angabe ist ein Teil des Schätzwerts, der dann in der Zeile stehen muss und nicht 0 sein darf",
  "{ownK} for the full width of a {ownShape} distribution": "{ownK} für die volle Breite der Verteilung ({ownShape})",
  "{ownK} for the half-width of a {ownShape} distribution, {ownL} for its full width, or 1 for a standard uncertainty":
    "{ownK} für die Halbweite der Verteilung ({ownShape}), {ownL} für ihre volle Breite oder 1 für eine Standardunsicherheit",
};
