import { chance, everyMessage, kelvin } from "./every-message.ts";

const decision = {
  kind: "decision",
  rule: "guarded acceptance",
  guardBand: { lower: kelvin(0.016, 3), upper: kelvin(0.016, 3), at: "each", side: "inside" },
  symbol: "e",
  estimate: kelvin(-0.041, 3),
  decision: "accepted",
  tolerance: { lower: -0.2224, upper: 0.2224, basis: null },
  unit: "°C",
} as const;

everyMessage("conformity", [
  [
    decision,
    "By guarded acceptance with a guard band of 0.016 °C inside each tolerance limit, e = −0.041 °C is accepted. The requirement is from −0.2224 to 0.2224 °C.",
    "Nach der Regel der Annahme mit Sicherheitsabstand (0,016 °C innerhalb jeder Toleranzgrenze) wird e = −0,041 °C angenommen. Gefordert ist −0,2224 bis 0,2224 °C.",
  ],
  [
    {
      ...decision,
      rule: "simple acceptance",
      guardBand: null,
      decision: "rejected",
      tolerance: { lower: null, upper: 0.1, basis: "order 7" },
    },
    "By simple acceptance, e = −0.041 °C is rejected. The requirement is at most 0.1 °C (order 7).",
    "Nach der Regel der einfachen Annahme wird e = −0,041 °C zurückgewiesen. Gefordert ist höchstens 0,1 °C (order 7).",
  ],
  [
    {
      ...decision,
      rule: "guarded rejection",
      guardBand: { lower: kelvin(0.02, 3), upper: kelvin(0, 3), at: "lower", side: "outside" },
      tolerance: { lower: 0.1 + 0.2, upper: null, basis: null },
    },
    "By guarded rejection with a guard band of 0.020 °C outside the tolerance limit, e = −0.041 °C is accepted. The requirement is at least 0.3 °C.",
    "Nach der Regel der Zurückweisung mit Sicherheitsabstand (0,020 °C außerhalb der Toleranzgrenze) wird e = −0,041 °C angenommen. Gefordert ist mindestens 0,3 °C.",
  ],
  [
    {
      ...decision,
      guardBand: { lower: kelvin(0.016, 3), upper: kelvin(0.018, 3), at: "apart", side: "inside" },
    },
    "By guarded acceptance with guard bands of 0.016 °C inside the lower and 0.018 °C inside the upper tolerance limit, e = −0.041 °C is accepted. The requirement is from −0.2224 to 0.2224 °C.",
    "Nach der Regel der Annahme mit Sicherheitsabstand (0,016 °C innerhalb der unteren, 0,018 °C innerhalb der oberen Toleranzgrenze) wird e = −0,041 °C angenommen. Gefordert ist −0,2224 bis 0,2224 °C.",
  ],
  [
    { kind: "withinScatter", linear: "accepted" },
    "The trials do not decide this: the result lies within their scatter of an acceptance limit, so another seed may decide otherwise. More trials are needed; by the linear budget the item is accepted.",
    "Die Versuche entscheiden das nicht: Das Ergebnis liegt innerhalb ihrer Streuung um eine Annahmegrenze, sodass ein anderer Startwert anders entscheiden kann. Es braucht mehr Versuche; nach dem linearen Budget wird das Stück angenommen.",
  ],
  [
    { kind: "posterior", conforming: chance(0.975), bearer: "producer", risk: chance(0.975) },
    "With the prior knowledge of the items, the probability of conformity is 97.50 % and the producer's risk of this decision is 97.50 % (JCGM 106, 7.2).",
    "Mit dem, was vorher über die Stücke bekannt war, beträgt die Konformitätswahrscheinlichkeit 97,50 % und das Lieferantenrisiko dieser Entscheidung 97,50 % (JCGM 106, 7.2).",
  ],
  [
    {
      kind: "risk",
      alone: true,
      monteCarlo: { value: 0.5, rest: 0.5 },
      linear: { value: 0.501, rest: 0.499 },
      bearer: "producer",
      risk: chance(0.5),
    },
    "From the measurement alone, the probability of conformity is 50.00 % by Monte Carlo and 50.10 % by the linear budget; the producer's risk of this decision is 50.00 %.",
    "Aus der Messung allein beträgt die Konformitätswahrscheinlichkeit 50,00 % nach Monte Carlo und 50,10 % nach dem linearen Budget; das Lieferantenrisiko dieser Entscheidung beträgt 50,00 %.",
  ],
  [
    { kind: "nothingAcceptable" },
    "The guard bands leave no value that could be accepted.",
    "Die Sicherheitsabstände lassen keinen Wert übrig, der angenommen werden könnte.",
  ],
  [
    {
      kind: "risk",
      alone: false,
      monteCarlo: { value: 0.981, rest: 0.019 },
      linear: { value: 1, rest: 1e-9 },
      bearer: "consumer",
      risk: chance(0.019),
    },
    "The probability of conformity is 98.10 % by Monte Carlo and more than 99.9999 % by the linear budget; the consumer's risk of this decision is 1.90 %.",
    "Die Konformitätswahrscheinlichkeit beträgt 98,10 % nach Monte Carlo und mehr als 99,9999 % nach dem linearen Budget; das Abnehmerrisiko dieser Entscheidung beträgt 1,90 %.",
  ],
  [
    { kind: "methodsDisagree", linear: "rejected" },
    "The methods disagree: by the linear budget the item would be rejected.",
    "Die Verfahren entscheiden verschieden: Nach dem linearen Budget würde das Stück zurückgewiesen.",
  ],
  [
    { kind: "beforeMeasurement", conforming: chance(0.95), consumer: chance(0.012), producer: chance(0.031) },
    "A share of 95.00 % of all items conforms; the next item is accepted wrongly with probability 1.20 % and rejected wrongly with probability 3.10 %.",
    "Von allen Stücken sind 95,00 % konform; das nächste Stück wird mit der Wahrscheinlichkeit 1,20 % zu Unrecht angenommen und mit 3,10 % zu Unrecht zurückgewiesen.",
  ],
]);
