/**
 * How readings, surveys and checks were evaluated, sentence by sentence, and what was checked. A place whose name begins
 * with `own` holds a name in the words of the laboratory.
 */
export const evidence: Readonly<Record<string, string>> = {
  // Surveys: stability.
  "stability from {own}, which stayed at {ownPosition} for {time}":
    "Stabilität aus {own}, das {time} lang bei {ownPosition} blieb",
  "{window} slid over {n} readings, one every {interval}; the worst window starts at {at}":
    "{window} gleitend über {n} Ablesungen, eine alle {interval}; das schlechteste Fenster beginnt um {at}",
  "half of its span is {half} (the quietest window: {best}); s is {s}":
    "die Hälfte seiner Spannweite ist {half} (das ruhigste Fenster: {best}); s ist {s}",
  "of that, drift of {drift} an hour moves {moved} through the window; what fluctuates about it has s {s}":
    "davon bewegt die Drift von {drift} je Stunde {moved} durch das Fenster; was darum schwankt, hat s {s}",
  "a single reading varies by {noise} from one to the next: as noise of the monitor it would add up to {most} to the half-span of {n} readings, and is left in":
    "eine einzelne Ablesung schwankt von einer zur nächsten um {noise}: als Rauschen des Thermometers trüge das bis zu {most} zur halben Spannweite von {n} Ablesungen bei und ist darin belassen",
  "if the comparison is read in drift-corrected cycles, the half-span of {window} counts again what the correction removes and the scatter of the differences contains: state stability.cycleMinutes":
    "wird der Vergleich in driftkorrigierten Zyklen abgelesen, zählt die halbe Spannweite von {window} noch einmal, was die Korrektur beseitigt und die Streuung der Differenzen enthält: bitte die Dauer eines Zyklus angeben",
  "over {length}, the time of one drift-corrected cycle, half of the worst span is {half}, and this is the figure stated: slower drift is corrected in every cycle. Steady drift within the cycle, {drift} of it, cancels too in a symmetric sequence of readings, and is left in":
    "über {length}, die Dauer eines driftkorrigierten Zyklus, ist die Hälfte der größten Spannweite {half}, und das ist der angegebene Wert: langsamere Drift wird in jedem Zyklus korrigiert. Gleichmäßige Drift innerhalb des Zyklus, {drift} davon, hebt sich in einer symmetrischen Folge von Ablesungen ebenfalls auf und ist darin belassen",
  "the samples are not evenly spaced: no Allan deviation":
    "die Ablesungen liegen nicht in gleichen Abständen: keine Allan-Abweichung",
  "too few samples for an Allan deviation": "zu wenige Ablesungen für eine Allan-Abweichung",
  "Allan deviation {first} from reading to reading: averaging gains nothing: the bath moves more than the readings scatter":
    "Allan-Abweichung {first} von Ablesung zu Ablesung: Mitteln bringt nichts: das Bad bewegt sich mehr, als die Ablesungen streuen",
  "Allan deviation {first} from reading to reading, {least} at {time}: averaging over this time improves means {gain}-fold; longer gains nothing":
    "Allan-Abweichung {first} von Ablesung zu Ablesung, {least} bei {time}: Mitteln über diese Zeit verbessert Mittelwerte {gain}-fach; länger bringt nichts",
  // Surveys: differences.
  "{n} comparisons with {own}: {swapped} by swapping the pair, {moved} by moving one against a fixed one; differences are of readings at the same moment, so drift of the bath cancels":
    "{n} Vergleiche mit {own}: {swapped} durch Tausch des Paares, {moved} durch Versetzen eines Thermometers gegen ein festes; die Differenzen sind solche gleichzeitiger Ablesungen, sodass sich Drift des Bades aufhebt",
  "no position differs from the reference position in depth alone: no vertical difference":
    "keine Stelle unterscheidet sich von der Bezugsstelle allein in der Tiefe: keine senkrechte Differenz",
  "no zone of radii: positions that differ from the reference position in radius alone are needed in two directions":
    "keine Zone von Radien: nötig sind Stellen in zwei Richtungen, die sich von der Bezugsstelle allein im Radius unterscheiden",
  "{own} is not compared with {ownReference}: it needs the pair swapped, or both at {ownReference2} once":
    "{own} ist nicht mit {ownReference} verglichen: dazu muss das Paar getauscht werden oder einmal beides bei {ownReference2} stehen",
  "vertical differences from {low} to {high} over depths of {from} to {to}: half-width {half}, {kind}; {because}":
    "senkrechte Differenzen von {low} bis {high} über Tiefen von {from} bis {to}: Halbweite {half}, {kind}; {because}",
  "horizontal differences from {low} to {high} over radii of {from} to {to}: half-width {half}, {kind}; {because}":
    "waagrechte Differenzen von {low} bis {high} über Radien von {from} bis {to}: Halbweite {half}, {kind}; {because}",
  rectangular: "rechteckig",
  triangular: "dreieckig",
  "the reference stands at the reference position, a probe anywhere in the zone: no further off than the largest difference":
    "das Normal steht an der Bezugsstelle, ein Fühler irgendwo in der Zone: nicht weiter davon entfernt als die größte Differenz",
  "corrected by the middle of the differences in the zone; half their range remains":
    "korrigiert um die Mitte der Differenzen in der Zone; die Hälfte ihrer Spannweite bleibt",
  "either thermometer may stand anywhere in the zone: the difference of two equal rectangulars is triangular over the whole range":
    "jedes der Thermometer kann irgendwo in der Zone stehen: die Differenz zweier gleicher Rechteckverteilungen ist dreieckig über die ganze Spannweite",
  "the differences found reach {reach} and have a standard uncertainty of {u} at most; added in quadrature, it makes the half-width {half}":
    "die gefundenen Differenzen reichen bis {reach} und haben eine Standardunsicherheit von höchstens {u}; quadratisch addiert ergibt sie die Halbweite {half}",
  "half of that zone ({from} to {to}) would leave {left}, a gain of {gain}":
    "die Hälfte dieser Zone ({from} bis {to}) ließe {left} übrig, ein Gewinn von {gain}",
  // What was checked.
  "noise of the vertical differences below a third of their half-width (common practice)":
    "Rauschen der senkrechten Differenzen unter einem Drittel ihrer Halbweite (übliche Praxis)",
  "noise of the horizontal differences below a third of their half-width (common practice)":
    "Rauschen der waagrechten Differenzen unter einem Drittel ihrer Halbweite (übliche Praxis)",
  "u {u} at most; half-width {half}": "u höchstens {u}; Halbweite {half}",
  "window of at least 30 min (common practice)": "Fenster von mindestens 30 min (übliche Praxis)",
  "window no shorter than the calibration takes (common practice)":
    "Fenster nicht kürzer als die Kalibrierung (übliche Praxis)",
  "{window}; the calibration takes {time}": "{window}; die Kalibrierung dauert {time}",
  "log without gaps": "Aufzeichnung ohne Lücken",
  "log of {own} without gaps in the steps used": "Aufzeichnung von {own} ohne Lücken in den verwendeten Schritten",
  "none longer than {time}": "keine länger als {time}",
  "log longer than one window, so that the worst can be found":
    "Aufzeichnung länger als ein Fenster, sodass sich das schlechteste finden lässt",
  "{n} windows, each started by another sample": "{n} Fenster, jedes beginnt mit einer anderen Ablesung",
  "every direction that was surveyed reaches the edge of the zone":
    "jede vermessene Richtung reicht bis zum Rand der Zone",
  "radii surveyed in at least two directions, so that they make a zone":
    "Radien in mindestens zwei Richtungen vermessen, sodass sie eine Zone bilden",
  "step {n}, {own} at {ownA} and {ownB} at {ownC}: settled (difference moves by less than three standard uncertainties)":
    "Schritt {n}, {own} bei {ownA} und {ownB} bei {ownC}: eingeschwungen (die Differenz bewegt sich um weniger als drei Standardunsicherheiten)",
  "offset {own} stays constant: every determination within three standard uncertainties of their mean (common practice)":
    "Versatz {own} bleibt gleich: jede Bestimmung innerhalb von drei Standardunsicherheiten ihres Mittelwerts (übliche Praxis)",
  "{n} determinations from {low} to {high}; the furthest ({from}) is {times} standard uncertainties off":
    "{n} Bestimmungen von {low} bis {high}; die fernste ({from}) ist {times} Standardunsicherheiten entfernt",
  "both at {own}, step {n}": "beide bei {own}, Schritt {n}",
  "{own} converted from {ownUnit}": "{own} aus {ownUnit} umgerechnet",
  "swap at {own}": "Tausch bei {own}",
  "moved by {moved}, u {u}": "um {moved} bewegt, u {u}",
  "{own}, off both axes: within the vertical and horizontal limits together":
    "{own}, abseits beider Achsen: innerhalb der senkrechten und waagrechten Grenzen zusammen",
  "{found} against {limit}": "{found} gegen {limit}",
  "all equal: stated as a constant 0; state the resolution of the readings as an input of its own":
    "alle gleich: als Konstante 0 angegeben; die Auflösung der Ablesungen bitte als eigene Eingangsgröße angeben",
  // Readings.
  "{n} cycles reference–probe–reference in the order of the rows, taken as evenly spaced in time; the reference is interpolated to each probe reading, so that linear drift cancels":
    "{n} Zyklen Normal–Fühler–Normal in der Reihenfolge der Zeilen, als zeitlich gleichmäßig angenommen; das Normal ist auf jede Ablesung des Fühlers interpoliert, sodass sich lineare Drift aufhebt",
  "{n} cycles reference–probe–reference from {from} to {to}, the longest {time}; the reference is interpolated to each probe reading, so that linear drift cancels":
    "{n} Zyklen Normal–Fühler–Normal von {from} bis {to}, der längste {time}; das Normal ist auf jede Ablesung des Fühlers interpoliert, sodass sich lineare Drift aufhebt",
  "without the correction the mean would be off by {off}": "ohne die Korrektur läge der Mittelwert um {off} daneben",
  "the reference moved by {moved} a minute at most; without the correction the mean would be off by {off}":
    "das Normal bewegte sich um höchstens {moved} je Minute; ohne die Korrektur läge der Mittelwert um {off} daneben",
  "other changes of the bath within a cycle are in the scatter of the differences: a stability over 30 min would count it again, so state that over {time} (stability.cycleMinutes of a survey)":
    "andere Änderungen des Bades innerhalb eines Zyklus stecken in der Streuung der Differenzen: eine Stabilität über 30 min zählte sie noch einmal, daher bitte die über {time} angeben (Dauer eines Zyklus der Vermessung)",
  "{n} pairs read together: a change of the bath that both thermometers follow is in neither difference":
    "{n} Paare zusammen abgelesen: eine Änderung des Bades, der beide Thermometer folgen, steckt in keiner Differenz",
  "{n} pairs read together from {from} to {to}: a change of the bath that both thermometers follow is in neither difference":
    "{n} Paare von {from} bis {to} zusammen abgelesen: eine Änderung des Bades, der beide Thermometer folgen, steckt in keiner Differenz",
  "the reference drifted by {drift} a minute, u {u}": "das Normal driftete um {drift} je Minute, u {u}",
  "the reference drifted by {drift} a row, u {u}": "das Normal driftete um {drift} je Zeile, u {u}",
  "the difference drifted by {drift} a minute, u {u}": "die Differenz driftete um {drift} je Minute, u {u}",
  "the difference drifted by {drift} a row, u {u}": "die Differenz driftete um {drift} je Zeile, u {u}",
  "neighbouring cycles share a reference reading, so their differences are not independent":
    "benachbarte Zyklen teilen eine Ablesung des Normals, ihre Differenzen sind daher nicht unabhängig",
  "{n} readings of {own} without a reference on both sides are not used":
    "{n} Ablesungen von {own} ohne eine des Normals auf beiden Seiten bleiben unbenutzt",
  "{n} readings of {own} without one of the reference at the same moment are not used":
    "{n} Ablesungen von {own} ohne gleichzeitige des Normals bleiben unbenutzt",
  "neighbouring values are correlated (lag-1 coefficient {r}, limit {limit}): {n} values are worth about {worth} independent ones":
    "benachbarte Werte sind korreliert (Koeffizient erster Ordnung {r}, Grenze {limit}): {n} Werte sind etwa {worth} unabhängige wert",
  "neighbouring values share a reading (correlation {r}): {n} values are worth {worth} independent ones, with {nu} degrees of freedom":
    "benachbarte Werte teilen eine Ablesung (Korrelation {r}): {n} Werte sind {worth} unabhängige wert, mit {nu} Freiheitsgraden",
  "deviation pooled over earlier series, {nu} degrees of freedom (JCGM 100, 4.2.4)":
    "Standardabweichung aus früheren Reihen zusammengefasst, {nu} Freiheitsgrade (JCGM 100, 4.2.4)",
  "mean difference {mean}, s {s}, u {u} with {nu} degrees of freedom ({basis})":
    "mittlere Differenz {mean}, s {s}, u {u} mit {nu} Freiheitsgraden ({basis})",
  "own dispersion": "eigene Streuung",
  "own dispersion, correlated": "eigene Streuung, korreliert",
  "pooled history": "zusammengefasste frühere Reihen",
  "pooled history, correlated": "zusammengefasste frühere Reihen, korreliert",
  "values are independent: lag-1 autocorrelation within 1.96/√n (Bartlett 1946)":
    "die Werte sind unabhängig: Autokorrelation erster Ordnung innerhalb von 1,96/√n (Bartlett 1946)",
  "today's dispersion agrees with the history (variance ratio, 95 %)":
    "die heutige Streuung stimmt mit den früheren überein (Varianzverhältnis, 95 %)",
  "s is {ratio} times the pooled deviation; probability {p} by chance":
    "s ist das {ratio}-Fache der zusammengefassten Standardabweichung; zufällig mit der Wahrscheinlichkeit {p}",
  "no outlier ({test}); flagged values stay in": "kein Ausreißer ({test}); auffällige Werte bleiben darin",
  "most distant is value {n}: {found} against {limit}": "am weitesten entfernt ist Wert {n}: {found} gegen {limit}",
  // Immersion.
  "exponential through {n} depths: conduction length {length}, error {error} at the planned {depth}":
    "Exponentialkurve durch {n} Tiefen: Abklinglänge {length}, Abweichung {error} bei den geplanten {depth}",
  "the error falls to {limit} at {depth}": "die Abweichung sinkt bei {depth} auf {limit}",
  "three depths determine the curve exactly: a fourth would test it":
    "drei Tiefen bestimmen die Kurve genau: eine vierte würde sie prüfen",
  "readings scatter about the curve by {s}": "die Ablesungen streuen um {s} um die Kurve",
  "withdrawn by {by}, the reading changes by {change}: with a decay length of {length} ({from}) the error at {depth} is {error}, change/(exp(h/ℓ) − 1)":
    "um {by} herausgezogen ändert sich die Ablesung um {change}: mit einer Abklinglänge von {length} ({from}) ist die Abweichung bei {depth} {error}, Änderung/(exp(h/ℓ) − 1)",
  "as stated": "wie angegeben",
  "from the second withdrawal": "aus dem zweiten Herausziehen",
  "not known; the longest of the usual {from} to {to}, so that the error is an upper bound":
    "nicht bekannt; die längste der üblichen {from} bis {to}, sodass die Abweichung eine obere Grenze ist",
  "a second withdrawal by the same length, or the decay length itself, would state the error and not a bound of it":
    "ein zweites Herausziehen um dieselbe Länge, oder die Abklinglänge selbst, ergäbe die Abweichung und nicht eine Grenze für sie",
  "the uncertainty of the change is not stated and not part of the half-width":
    "die Unsicherheit der Änderung ist nicht angegeben und nicht Teil der Halbweite",
  "the half-width {half} is the error and twice its standard uncertainty, {u}":
    "die Halbweite {half} ist die Abweichung und ihre doppelte Standardunsicherheit, {u}",
  "immerse deeper, or take readings at several depths and fit them":
    "tiefer eintauchen, oder Ablesungen in mehreren Tiefen aufnehmen und anpassen",
  "error of stem conduction at {depth} no more than {limit}, its 95 % uncertainty included":
    "Abweichung durch Wärmeleitung im Schaft bei {depth} nicht größer als {limit}, ihre Unsicherheit bei 95 % eingeschlossen",
  "error of stem conduction at {depth}, with twice its u, no more than {limit}":
    "Abweichung durch Wärmeleitung im Schaft bei {depth}, mit ihrem doppelten u, nicht größer als {limit}",
  "{error} ± {margin}": "{error} ± {margin}",
  "change known well enough to judge: its u below half of the limit (common practice)":
    "Änderung gut genug bekannt, um zu urteilen: ihr u unter der Hälfte der Grenze (übliche Praxis)",
  "immersion of at least {depth} in a laboratory bath (common practice)":
    "Eintauchtiefe in einem Laborbad von mindestens {depth} (übliche Praxis)",
  // Certificates.
  "{t} is a point of the certificate": "{t} ist ein Punkt des Kalibrierscheins",
  "interpolated between the points {low} and {high} of {n}: correction and u linearly, as for fully correlated corrections":
    "interpoliert zwischen den Punkten {low} und {high} von {n}: Korrektion und u linear, wie für vollständig korrelierte Korrektionen",
  "correction {c}, u {u}": "Korrektion {c}, u {u}",
  "correction {c}, u {u}, {nu} degrees of freedom (the fewer of the two points)":
    "Korrektion {c}, u {u}, {nu} Freiheitsgrade (die kleinere Zahl der beiden Punkte)",
  "two points do not show how the correction departs from a straight line between them: state referenceInterpolation yourself":
    "zwei Punkte zeigen nicht, wie die Korrektion von der Geraden zwischen ihnen abweicht: bitte die Interpolation selbst angeben",
  "the parabola through the nearest three points leaves the straight line by {by}: half-width of referenceInterpolation":
    "die Parabel durch die nächsten drei Punkte weicht um {by} von der Geraden ab: Halbweite der Interpolation",
  "the largest change from one calibration to the next, {change}, bounds the drift either way":
    "die größte Änderung von einer Kalibrierung zur nächsten, {change}, begrenzt die Drift nach beiden Seiten",
  "Warning: all {n} changes go the same way, so that a drift of {drift} an interval is to be expected, which limits about 0 do not correct: take the method rate":
    "Warnung: alle {n} Änderungen gehen in dieselbe Richtung, sodass eine Drift von {drift} je Intervall zu erwarten ist, die Grenzen um 0 nicht korrigieren: bitte das Verfahren mit der Geraden nehmen",
  "straight line through {n} calibrations: {rate} a year, so {change} in the {days} days since the last":
    "Gerade durch {n} Kalibrierungen: {rate} im Jahr, also {change} in den {days} Tagen seit der letzten",
  "u {u} with {nu} degrees of freedom: the scatter of a single calibration about the line, {s}, and that of the rate; with few calibrations the line may fit by chance":
    "u {u} mit {nu} Freiheitsgraden: die Streuung einer einzelnen Kalibrierung um die Gerade, {s}, und die der Steigung; bei wenigen Kalibrierungen kann die Gerade zufällig passen",
  // Where a quantity of a survey is from.
  "{own}: half the span of {ownThermometer} in the worst {window} of {stay}":
    "{own}: halbe Spannweite von {ownThermometer} in den schlechtesten {window} von {stay}",
  "{own}: half the span of {ownThermometer} in the worst {window} of {stay}, the time of one drift-corrected cycle":
    "{own}: halbe Spannweite von {ownThermometer} in den schlechtesten {window} von {stay}, der Dauer eines driftkorrigierten Zyklus",
  "{own}: standard deviation of {ownThermometer} in the worst {window} of {stay}":
    "{own}: Standardabweichung von {ownThermometer} in den schlechtesten {window} von {stay}",
  "{own}: depths {from} to {to}, {n} comparisons, their u of {u} at most included":
    "{own}: Tiefen {from} bis {to}, {n} Vergleiche, ihr u von höchstens {u} eingeschlossen",
  "{own}: radii {from} to {to}, {n} comparisons, their u of {u} at most included":
    "{own}: Radien {from} bis {to}, {n} Vergleiche, ihr u von höchstens {u} eingeschlossen",
  "a window of {window} slid over the readings of {own} while it stayed at {ownPosition}; half the span of the worst of {n}":
    "ein Fenster von {window} glitt über die Ablesungen von {own}, während es bei {ownPosition} stand; halbe Spannweite des schlechtesten von {n}",
  "synchronous differences from {own} by {ownA} and {ownB}: {swapped} positions with the pair swapped, {moved} with one moved; limits over the zone, arrangement {arrangement}":
    "gleichzeitige Differenzen zu {own} mit {ownA} und {ownB}: {swapped} Stellen mit getauschtem Paar, {moved} mit einem versetzten Thermometer; Grenzen über die Zone, Anordnung: {arrangement}",
  "reference-fixed": "Normal an fester Stelle",
  midpoint: "Mitte der Zone",
  anywhere: "beide irgendwo in der Zone",
  "nothing between {from} and {to}": "nichts zwischen {from} und {to}",
  "{days} days since the calibration are more than any interval of the history ({longest} days): the bound may be too small":
    "{days} Tage seit der Kalibrierung sind mehr als jeder frühere Abstand ({longest} Tage): die Grenze kann zu klein sein",
  "corrections at {t}: {ownList}": "Korrektionen bei {t}: {ownList}",
  "the calibration of {own} is {n} days old and no day is stated on which the next is due":
    "die Kalibrierung von {own} ist {n} Tage alt, und es ist kein Tag angegeben, an dem die nächste fällig ist",
  "the calibration of {own} was due on {day}, {n} days before {on}: its drift may exceed what the history bounds":
    "die Kalibrierung von {own} war am {day} fällig, {n} Tage vor {on}: ihre Drift kann überschreiten, was die früheren Kalibrierungen begrenzen",
  "{n} directions reach {radius}": "{n} Richtungen reichen bis {radius}",
  "one alone (not named): no horizontal half-width": "nur eine (ohne Namen): keine waagrechte Halbweite",
  "one alone ({own}): no horizontal half-width": "nur eine ({own}): keine waagrechte Halbweite",
  "generalized extreme studentized deviate test": "verallgemeinerter ESD-Test",
  "Grubbs' test, two-sided": "Grubbs-Test, zweiseitig",
  "readings of the stability that the thermometers resolve": "Ablesungen der Stabilität, die die Thermometer auflösen",
  "vertical differences that the thermometers resolve": "senkrechte Differenzen, die die Thermometer auflösen",
  "horizontal differences that the thermometers resolve": "waagrechte Differenzen, die die Thermometer auflösen",
};
