import { refuse } from "../../../engine/index.ts";
import { STANDARD_PRESSURE, type FixedPoint } from "../its90/fixed-points.ts";

/**
 * T₉₀ in K at the middle of the sensor in a fixed-point cell: the assigned temperature, the head of the substance
 * above the sensor, and, at melting and freezing points, the pressure over the surface. Triple points are under their
 * own vapour, so pressure does not enter there (Metrologia 27 (1990) 3–10, table 2).
 *
 * @param depth from the surface of the substance to the middle of the sensor, m
 * @param pressure over the surface, Pa
 */
export function temperatureAtSensor(point: FixedPoint, depth: number, pressure = STANDARD_PRESSURE): number {
  const head = (point.perDepth ?? 0) * depth;
  return point.temperature + (takesPressure(point) ? head + point.perPressure! * (pressure - STANDARD_PRESSURE) : head);
}

/** Whether the pressure over the surface acts on the temperature of the point. */
export const takesPressure = ({ state }: FixedPoint): boolean => state === "melting" || state === "freezing";

/** `temperatureAtSensor`, checked. @throws {InputError} a point without table values, a negative depth or pressure */
export function sensorTemperature(point: FixedPoint, depth: number, pressure = STANDARD_PRESSURE): number {
  if (point.perDepth === null) refuse("point", point.name, "a fixed point whose depth effect the scale gives");
  if (!(depth >= 0 && depth < Infinity)) refuse("depth", depth, "a depth in m, at least 0");
  if (!(pressure >= 0 && pressure < Infinity)) refuse("pressure", pressure, "a pressure in Pa, at least 0");
  return temperatureAtSensor(point, depth, pressure);
}
