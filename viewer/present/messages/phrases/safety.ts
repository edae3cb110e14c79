/** Cautions of the models, and what a bath's own statements warn of. */
export const safety: Readonly<Record<string, string>> = {
  "Hot fluid burns: wear face and hand protection, lower probes slowly, and let a hot bath cool before moving or draining it.":
    "Heiße Flüssigkeit verbrennt: Gesichts- und Handschutz tragen, Fühler langsam eintauchen und ein heißes Bad abkühlen lassen, bevor es bewegt oder entleert wird.",
  "Keep the set temperature well below the flash point of the fluid, and set an independent over-temperature cut-out between the two.":
    "Die Solltemperatur deutlich unter dem Flammpunkt der Flüssigkeit halten und eine unabhängige Übertemperaturabschaltung dazwischen einstellen.",
  "Heated oil and any alcohol give off fumes: work under extraction, away from flames.":
    "Erhitztes Öl und jeder Alkohol geben Dämpfe ab: unter Absaugung arbeiten, fern von Flammen.",
  "Fluid expands when heated: fill it cold and leave room for the hot level. Never let water reach oil above 90 °C, where it boils violently.":
    "Flüssigkeit dehnt sich beim Erwärmen aus: kalt einfüllen und Raum für den heißen Füllstand lassen. Nie Wasser in Öl über 90 °C gelangen lassen, wo es heftig siedet.",
  "A cold bath frosts bare skin and gathers condensation: wear gloves, purge or cover the bath, and dry probes before they go into a hot one.":
    "Ein kaltes Bad verursacht Erfrierungen auf bloßer Haut und sammelt Kondenswasser: Handschuhe tragen, das Bad spülen oder abdecken und Fühler trocknen, bevor sie in ein heißes kommen.",
  "The safety data sheet of the fluid, local codes and qualified persons decide; this list does not replace them.":
    "Das Sicherheitsdatenblatt der Flüssigkeit, örtliche Vorschriften und fachkundige Personen entscheiden; diese Liste ersetzt sie nicht.",
  "Mercury is poisonous and gives off vapour at room temperature: keep cells in their overpack over a tray, ventilate, and keep a spill kit ready.":
    "Quecksilber ist giftig und gibt bei Raumtemperatur Dampf ab: Zellen in ihrer Umverpackung über einer Wanne halten, lüften und Aufnahmemittel bereithalten.",
  "Furnaces, cells and thermometers stay hot long after they look cold: use tongs and gloves, and lay a hot thermometer only on a surface made for it.":
    "Öfen, Zellen und Thermometer bleiben lange heiß, wenn sie schon kalt aussehen: Zange und Handschuhe benutzen und ein heißes Thermometer nur auf eine dafür gemachte Fläche legen.",
  "Metals that melt expand and may burst a cell: heat and cool only as its maker states, and never move a cell with the metal molten.":
    "Schmelzende Metalle dehnen sich aus und können eine Zelle sprengen: nur nach Angabe des Herstellers heizen und kühlen und nie eine Zelle mit geschmolzenem Metall bewegen.",
  "A water triple point cell may burst if its mantle bridges the well: free the mantle, wear eye protection, and never leave it to freeze unattended.":
    "Eine Wassertripelpunktzelle kann bersten, wenn ihr Eismantel den Schacht überbrückt: den Mantel lösen, Augenschutz tragen und sie nie unbeaufsichtigt gefrieren lassen.",
  "Liquid nitrogen and argon burn skin and displace air: gloves, face shield, ventilation and an oxygen alarm in small rooms.":
    "Flüssiger Stickstoff und flüssiges Argon verletzen die Haut und verdrängen Luft: Handschuhe, Gesichtsschild, Lüftung und in kleinen Räumen ein Sauerstoffwarngerät.",
  "Safety data sheets, local codes and qualified persons decide; this list does not replace them.":
    "Sicherheitsdatenblätter, örtliche Vorschriften und fachkundige Personen entscheiden; diese Liste ersetzt sie nicht.",
  "Lines and vessels may be hot, cold or under pressure: have the plant made safe before a probe or its pocket is loosened, and never draw a pocket from a line in service.":
    "Leitungen und Behälter können heiß, kalt oder unter Druck sein: die Anlage sichern lassen, bevor ein Fühler oder sein Schutzrohr gelöst wird, und nie ein Schutzrohr aus einer Leitung in Betrieb ziehen.",
  "Isolate and prove dead before leads are opened; a temperature loop may stop pumps or heaters when it is broken: inform the operator first.":
    "Vor dem Öffnen von Zuleitungen freischalten und Spannungsfreiheit feststellen; ein unterbrochener Temperaturkreis kann Pumpen oder Heizungen anhalten: zuerst das Betriebspersonal unterrichten.",
  "In areas with explosive atmospheres use only apparatus allowed there.":
    "In explosionsgefährdeten Bereichen nur dort zugelassene Geräte verwenden.",
  "Site permits, local codes and qualified persons decide; this list does not replace them.":
    "Freigaben vor Ort, örtliche Vorschriften und fachkundige Personen entscheiden; diese Liste ersetzt sie nicht.",
  "A steriliser holds steam under pressure: open it only when its own interlocks allow, and never defeat them.":
    "Ein Sterilisator enthält Dampf unter Druck: nur öffnen, wenn seine Verriegelungen es zulassen, und diese nie überbrücken.",
  "Whether a load is sterile is decided by the validated process, local regulation and qualified persons, not by this figure.":
    "Ob eine Beladung steril ist, entscheiden der validierte Prozess, örtliche Vorschriften und fachkundige Personen, nicht dieser Wert.",
  "Not judged: {what}.": "Nicht beurteilt: {what}.",
  "{first}; {second}": "{first}; {second}",
  "the fluid is not named (one of {kinds})": "die Flüssigkeit ist nicht genannt (eine von {kinds})",
  "the usable range of the fluid is not known": "der nutzbare Bereich der Flüssigkeit ist nicht bekannt",
  "the flash point is not stated": "der Flammpunkt ist nicht angegeben",
  "the setting of the over-temperature cut-out is not stated":
    "die Einstellung der Übertemperaturabschaltung ist nicht angegeben",
  "{warning}; {because}.": "{warning}; {because}.",
  "{t} °C is outside the usable range of the fluid, {low} °C to {high} °C":
    "{t} °C liegen außerhalb des nutzbaren Bereichs der Flüssigkeit, {low} °C bis {high} °C",
  "usual range of {fluid} in an open stirred bath ({source}); its data sheets decide":
    "üblicher Bereich von {fluid} in einem offenen Rührbad ({source}); es entscheiden die Datenblätter",
  "a fluid of {v} mm²/s is too thick to be stirred well":
    "eine Flüssigkeit von {v} mm²/s ist zu zäh, um gut gerührt zu werden",
  "below {v} mm²/s at the working temperature, best 10 mm²/s or less (a bath maker's manual)":
    "unter {v} mm²/s bei der Arbeitstemperatur, am besten höchstens 10 mm²/s (Handbuch eines Badherstellers)",
  "Bath {bath}: {warning}": "Bad {bath}: {warning}",
  "range stated from the fluid's data sheet": "Bereich nach dem Datenblatt der Flüssigkeit angegeben",
  "the flash point of the fluid is not stated: state the closed-cup one of its own safety data sheet before you judge {t} °C by it":
    "der Flammpunkt der Flüssigkeit ist nicht angegeben: den im geschlossenen Tiegel aus ihrem Sicherheitsdatenblatt angeben, bevor {t} °C danach beurteilt werden",
  "no figure for {fluid} is available, so that nothing was judged by it":
    "für {fluid} liegt kein Wert vor, sodass danach nichts beurteilt wurde",
  "{t} °C is the lowest in print for {fluid} ({note}); yours may lie lower":
    "{t} °C ist der niedrigste gedruckte Wert für {fluid} ({note}); der vorliegende kann tiefer sein",
  "{t} °C is not {margin} K below the flash point {flash} °C ({origin})":
    "{t} °C liegen nicht {margin} K unter dem Flammpunkt {flash} °C ({origin})",
  "a hint, not that of your fluid": "ein Anhaltswert, nicht der der vorliegenden Flüssigkeit",
  "stated from the safety data sheet": "nach dem Sicherheitsdatenblatt angegeben",
  "set point 10 K to 25 K below the closed-cup flash point (common practice)":
    "Sollwert 10 K bis 25 K unter dem Flammpunkt im geschlossenen Tiegel (übliche Praxis)",
  "no over-temperature cut-out is stated for a fluid that can burn":
    "für eine brennbare Flüssigkeit ist keine Übertemperaturabschaltung angegeben",
  "an independent cut-out protects the flash point (requirements: IEC 61010-2-010; classes of baths: DIN 12876-1)":
    "eine unabhängige Abschaltung schützt vor dem Flammpunkt (Anforderungen: IEC 61010-2-010; Klassen von Bädern: DIN 12876-1)",
  "the cut-out at {t} °C is not {margin} K below the flash point {flash} °C ({origin})":
    "die Abschaltung bei {t} °C liegt nicht {margin} K unter dem Flammpunkt {flash} °C ({origin})",
  "the cut-out must act before the fluid can ignite (common practice)":
    "die Abschaltung muss wirken, bevor sich die Flüssigkeit entzünden kann (übliche Praxis)",
  "the cut-out at {cutOut} °C is not above the set temperature {t} °C":
    "die Abschaltung bei {cutOut} °C liegt nicht über der Solltemperatur {t} °C",
  "it would trip in normal work": "sie würde bei normaler Arbeit auslösen",
  "no under-temperature cut-out is stated for a bath at {t} °C":
    "für ein Bad bei {t} °C ist keine Untertemperaturabschaltung angegeben",
  "a runaway cooler thickens or freezes the fluid and stops the stirrer (common practice)":
    "ein durchlaufender Kühler verdickt oder gefriert die Flüssigkeit und hält den Rührer an (übliche Praxis)",
  "the under-temperature cut-out at {cutOut} °C is not below the set temperature {t} °C":
    "die Untertemperaturabschaltung bei {cutOut} °C liegt nicht unter der Solltemperatur {t} °C",
  "{fluid} gains about {percent} % in volume from {from} °C to {to} °C: keep the warm level 10 mm to 20 mm below the rim.":
    "{fluid}: Volumenzunahme von etwa {percent} % von {from} °C auf {to} °C; den warmen Füllstand 10 mm bis 20 mm unter dem Rand halten.",
  "Water in hot oil: 1 g makes about 1.7 L of steam. No wet probes, no ice; heat oil that has taken up water slowly through 100 °C to 120 °C.":
    "Wasser in heißem Öl: 1 g ergibt etwa 1,7 L Dampf. Keine nassen Fühler, kein Eis; Öl, das Wasser aufgenommen hat, langsam durch 100 °C bis 120 °C erwärmen.",
  "Hot silicone oil oxidises in air, gives off formaldehyde and thickens: extract the fumes, replace oil that gels.":
    "Heißes Silikonöl oxidiert an Luft, gibt Formaldehyd ab und wird dicker: Dämpfe absaugen, gelierendes Öl ersetzen.",
  "Alcohol vapour ignites at room temperature: no flames, sparks or ignition sources at the bath, also while it warms up.":
    "Alkoholdampf entzündet sich bei Raumtemperatur: keine Flammen, Funken oder Zündquellen am Bad, auch nicht, während es sich erwärmt.",
  "Molten salt is a strong oxidiser: keep organic matter, oil and water away from it.":
    "Geschmolzenes Salz ist ein starkes Oxidationsmittel: organische Stoffe, Öl und Wasser fernhalten.",
  "Water condenses into a cold bath and freezes on its coils: cover and purge it, and dry the fluid before it goes above 0 °C.":
    "Wasser kondensiert in ein kaltes Bad und gefriert an seinen Rohrschlangen: abdecken und spülen und die Flüssigkeit trocknen, bevor sie über 0 °C geht.",
  water: "Wasser",
  "not stated": "nicht angegeben",
  "water and ethylene glycol, 1:1": "Wasser und Ethylenglykol, 1:1",
  "silicone oil, {viscosity} mm²/s": "Silikonöl, {viscosity} mm²/s",
  "salt melt": "Salzschmelze",
  "water and ethylene glycol, 1:1 by volume": "Wasser und Ethylenglykol, 1:1 nach Volumen",
  ethanol: "Ethanol",
  methanol: "Methanol",
  "dimethyl silicone oil, {viscosity} mm²/s": "Dimethylsilikonöl, {viscosity} mm²/s",
  "phenylmethyl silicone oil, {viscosity} mm²/s": "Phenylmethylsilikonöl, {viscosity} mm²/s",
  "white mineral oil": "Weißöl",
  "nitrate and nitrite salt mixture": "Nitrat-Nitrit-Salzschmelze",
  none: "keiner",
  "closed cup": "geschlossener Tiegel",
  "the lowest in print": "der niedrigste gedruckte",
  "no figure found in print": "kein gedruckter Wert gefunden",
  "none; a strong oxidiser": "keiner; ein starkes Oxidationsmittel",
  "none below the boiling of water; the pure glycol 111 °C closed cup":
    "keiner unter dem Sieden des Wassers; das reine Glykol 111 °C im geschlossenen Tiegel",
  "range common practice": "Bereich nach üblicher Praxis",
  "a bath maker's manual: a few degrees above 0 °C to a few below 100 °C, less stable above 75 °C":
    "Handbuch eines Badherstellers: einige Grad über 0 °C bis einige unter 100 °C, über 75 °C weniger stabil",
  "range within that of a glycol supplier's density table; flash point of the glycol: NTP chemical repository, NIOSH Pocket Guide":
    "Bereich innerhalb der Dichtetabelle eines Glykollieferanten; Flammpunkt des Glykols: NTP Chemical Repository, NIOSH Pocket Guide",
  "flash point: NTP chemical repository, NIOSH Pocket Guide; range common practice":
    "Flammpunkt: NTP Chemical Repository, NIOSH Pocket Guide; Bereich nach üblicher Praxis",
  "flash point: NAS laboratory chemical safety summary; range common practice":
    "Flammpunkt: NAS Laboratory Chemical Safety Summary; Bereich nach üblicher Praxis",
  "flash point: ECHA registration dossier of the pure compound; range common practice":
    "Flammpunkt: ECHA-Registrierungsdossier der reinen Verbindung; Bereich nach üblicher Praxis",
  "flash point: a silicone vendor's questions and answers; range common practice":
    "Flammpunkt: Fragen und Antworten eines Silikonanbieters; Bereich nach üblicher Praxis",
};
