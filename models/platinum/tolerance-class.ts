import { refuse } from "../../engine/index.ts";
import { resistanceSlope } from "./iec60751.ts";

/** The sensing element of a thermometer: wound wire or deposited film. */
export type Element = "wire" | "film";
export type ToleranceClassName = "AA" | "A" | "B" | "C";

/** A tolerance class of IEC 60751:2022: limit ±(constant + proportion·|t|). */
export interface ToleranceClass {
  readonly name: ToleranceClassName;
  /** °C */
  readonly constant: number;
  /** °C per °C of |t| */
  readonly proportion: number;
  /** Where the class is valid for a thermometer, °C, by its element. */
  readonly ranges: Readonly<Record<Element, readonly [low: number, high: number]>>;
}

/** Tolerance classes for thermometers: IEC 60751:2008, 5.1.3; the 2022 edition names no change of them. */
export const toleranceClasses: Readonly<Record<ToleranceClassName, ToleranceClass>> = {
  AA: { name: "AA", constant: 0.1, proportion: 0.0017, ranges: { wire: [-50, 250], film: [0, 150] } },
  A: { name: "A", constant: 0.15, proportion: 0.002, ranges: { wire: [-100, 450], film: [-30, 300] } },
  B: { name: "B", constant: 0.3, proportion: 0.005, ranges: { wire: [-196, 600], film: [-50, 500] } },
  C: { name: "C", constant: 0.6, proportion: 0.01, ranges: { wire: [-196, 600], film: [-50, 600] } },
};

/** Every class of the sensing element by itself: IEC 60751:2008, 5.1.2 and table 2. */
export const resistorClassNames = ["W 0.1", "W 0.15", "W 0.3", "W 0.6", "F 0.1", "F 0.15", "F 0.3", "F 0.6"] as const;
/** A class of the sensing element by itself: W wound wire, F film. */
export type ResistorClassName = (typeof resistorClassNames)[number];

/** Where the class of a sensing element is valid, °C: IEC 60751:2008, 5.1.2 and table 2. */
const RESISTOR_RANGES: Readonly<Record<ResistorClassName, readonly [low: number, high: number]>> = {
  "W 0.1": [-100, 350],
  "W 0.15": [-100, 450],
  "W 0.3": [-196, 660],
  "W 0.6": [-196, 660],
  "F 0.1": [0, 150],
  "F 0.15": [-30, 300],
  "F 0.3": [-50, 500],
  "F 0.6": [-50, 600],
};

export const isResistorClass = (name: unknown): name is ResistorClassName =>
  typeof name === "string" && Object.hasOwn(RESISTOR_RANGES, name);

/** Limits of sensing elements are those of the thermometers' classes with the same limit at 0 °C. */
const LIKE: Readonly<Record<string, ToleranceClassName>> = { "0.1": "AA", "0.15": "A", "0.3": "B", "0.6": "C" };

/**
 * The tolerance of a sensing element's class at t, in °C, as a positive number. Its range always applies: the class names
 * the element.
 *
 * @throws {InputError} t outside the range
 */
export function resistorTolerance(name: ResistorClassName, t: number): number {
  const [low, high] = RESISTOR_RANGES[name];
  if (!(t >= low && t <= high))
    refuse("t", t, `a temperature from ${low} °C to ${high} °C, the range of class ${name} (${RANGES_NOTE})`);
  return tolerance(LIKE[name.slice(2)]!, t);
}

/** Shown wherever a range decides. */
export const RANGES_NOTE =
  "The temperature ranges of the tolerance classes are those that makers print from IEC 60751:2008; that of class C with a film element is not confirmed. Check them against the edition in force before you rely on them.";

/**
 * The tolerance of a class at t, in °C, as a positive number.
 *
 * @param element if given, t must lie in the class's range for it (see `RANGES_NOTE`)
 * @throws {InputError} a class that does not exist, or t outside the range
 */
export function tolerance(name: ToleranceClassName, t: number, element?: Element): number {
  if (!Object.hasOwn(toleranceClasses, name))
    refuse("class", name, `one of ${Object.keys(toleranceClasses).join(", ")}`);
  const found = toleranceClasses[name];
  if (!Number.isFinite(t)) refuse("t", t, "a temperature in °C");
  if (element !== undefined) {
    if (!Object.hasOwn(found.ranges, element)) refuse("element", element, "wire or film");
    const [low, high] = found.ranges[element];
    if (!(t >= low && t <= high)) {
      refuse(
        "t",
        t,
        `a temperature from ${low} °C to ${high} °C, the range of class ${name} with a ${element} element (${RANGES_NOTE})`,
      );
    }
  }
  return found.constant + found.proportion * Math.abs(t);
}

/**
 * The tolerance of a class at t in ohms: the limit in °C times dR/dt.
 *
 * @param nominal R₀, Ω
 * @throws {InputError} as `tolerance`, or t outside IEC 60751
 */
export function toleranceInOhms(name: ToleranceClassName, t: number, nominal = 100, element?: Element): number {
  return tolerance(name, t, element) * resistanceSlope(t, nominal);
}
