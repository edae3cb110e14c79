import { refuse, type ModelFamily } from "../../engine/index.ts";

/** Refuses parameters that a family does not have. @throws {InputError} */
export function refuseUnknown(
  family: Pick<ModelFamily, "parameters">,
  parameters: Readonly<Record<string, unknown>>,
): void {
  const known = Object.keys(family.parameters);
  for (const name of Object.keys(parameters)) {
    if (!known.includes(name)) refuse(`parameters.${name}`, parameters[name], `one of ${known.join(", ")}`);
  }
}

/** A list of finite numbers. @throws {InputError} placed under `parameters` */
export function numbersAt(name: string, value: unknown): readonly number[] {
  if (!Array.isArray(value)) return refuse(`parameters.${name}`, value, "a list of numbers");
  value.forEach((entry, i) => {
    if (typeof entry !== "number" || !Number.isFinite(entry))
      refuse(`parameters.${name}.${i}`, entry, "a finite number");
  });
  return value as readonly number[];
}

/** A truth value, or what stands for it if none is given. @throws {InputError} placed under `parameters` */
export function flagAt(name: string, value: unknown, otherwise: boolean): boolean {
  if (value === undefined) return otherwise;
  if (typeof value !== "boolean") return refuse(`parameters.${name}`, value, "true or false");
  return value;
}
