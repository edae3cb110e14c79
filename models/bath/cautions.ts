/**
 * The usual cautions for work at a stirred bath (common practice). They remind; they do not replace the fluid's safety
 * data sheet, local codes or a qualified person.
 */
export const BATH_CAUTIONS: readonly string[] = [
  "Hot fluid burns: wear face and hand protection, lower probes slowly, and let a hot bath cool before moving or draining it.",
  "Keep the set temperature well below the flash point of the fluid, and set an independent over-temperature cut-out between the two.",
  "Heated oil and any alcohol give off fumes: work under extraction, away from flames.",
  "Fluid expands when heated: leave room for it. Never let water reach oil above 90 °C, where it boils violently.",
  "A cold bath frosts bare skin and gathers condensation: wear gloves, purge or cover the bath, and dry probes before they go into a hot one.",
  "The safety data sheet of the fluid, local codes and qualified persons decide; this list does not replace them.",
];
