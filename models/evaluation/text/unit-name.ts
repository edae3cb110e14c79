/** A unit as it is printed: the ways of typing °C and Ω come out as one. */
export function unitName(unit: string): string {
  const text = unit.trim();
  if (/^(deg\.? ?c|º ?c|° ?c|℃|celsius|grad ?c|degrees? c(elsius)?)$/i.test(text)) return "°C";
  return text.replace(/^([nuµmkM]?)(ohms?|Ω)$/i, "$1Ω");
}
