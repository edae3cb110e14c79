/**
 * The usual cautions at fixed-point cells and at thermometers in a plant (common practice). They remind; they do not
 * replace safety data sheets, local codes or a qualified person.
 */
export const FIXED_POINT_CAUTIONS: readonly string[] = [
  "Mercury is poisonous and gives off vapour at room temperature: keep cells in their overpack over a tray, ventilate, and keep a spill kit ready.",
  "Furnaces, cells and thermometers stay hot long after they look cold: use tongs and gloves, and lay a hot thermometer only on a surface made for it.",
  "Metals that melt expand and may burst a cell: heat and cool only as its maker states, and never move a cell with the metal molten.",
  "A water triple point cell may burst if its mantle bridges the well: free the mantle, wear eye protection, and never leave it to freeze unattended.",
  "Liquid nitrogen and argon burn skin and displace air: gloves, face shield, ventilation and an oxygen alarm in small rooms.",
  "Safety data sheets, local codes and qualified persons decide; this list does not replace them.",
];

export const PLANT_CAUTIONS: readonly string[] = [
  "Lines and vessels may be hot, cold or under pressure: have the plant made safe before a probe or its pocket is loosened, and never draw a pocket from a line in service.",
  "Isolate and prove dead before leads are opened; a temperature loop may stop pumps or heaters when it is broken: inform the operator first.",
  "In areas with explosive atmospheres use only apparatus allowed there.",
  "Site permits, local codes and qualified persons decide; this list does not replace them.",
];
