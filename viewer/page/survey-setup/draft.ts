/** A place in the bath as it is typed. Lengths in mm. */
export interface Place {
  name: string;
  depth: string;
  radius: string;
  direction: string;
}

/** A step of the survey as it is typed: moments as the log's clock shows them, and who stood where. */
export interface Step {
  from: string;
  to: string;
  /** Name of a position, by thermometer; "" for out of the bath. */
  at: Record<string, string>;
}

/** A thermometer, and where it stands in the log. */
export interface Thermometer {
  name: string;
  file: string;
  /** Heading or letter; "" if the name is the heading. */
  column: string;
  unit: string;
  r0: string;
  a: string;
  b: string;
  c: string;
}

/** What a file of the log does not show itself. */
export type LogFields = Record<string, string>;

/** A survey as it is being set up: text as it was typed, so that nothing half-written is lost. */
export interface SetUp {
  title: string;
  notes: string;
  fluid: string;
  setTemperature: string;
  flashPoint: string;
  overTemperatureCutOut: string;
  logs: { file: string; fields: LogFields }[];
  thermometers: Thermometer[];
  positions: Place[];
  reference: string;
  steps: Step[];
  settlingMinutes: string;
  calibrationMinutes: string;
  windowMinutes: string;
  cycleMinutes: string;
  zoneFrom: string;
  zoneTo: string;
  zoneRadius: string;
  arrangement: string;
  maximumGapSeconds: string;
  /** What the form has no field for is kept as it was. */
  others: Record<string, unknown>;
}

export const emptySetUp = (): SetUp => ({
  title: "",
  notes: "",
  fluid: "",
  setTemperature: "",
  flashPoint: "",
  overTemperatureCutOut: "",
  logs: [],
  thermometers: [],
  positions: [],
  reference: "",
  steps: [],
  settlingMinutes: "5",
  calibrationMinutes: "",
  windowMinutes: "",
  cycleMinutes: "",
  zoneFrom: "",
  zoneTo: "",
  zoneRadius: "",
  arrangement: "reference-fixed",
  maximumGapSeconds: "",
  others: {},
});

type Bag = Readonly<Record<string, unknown>>;
const bag = (value: unknown): Bag =>
  typeof value === "object" && value !== null && !Array.isArray(value) ? (value as Bag) : {};
const list = (value: unknown): readonly unknown[] => (Array.isArray(value) ? value : []);
const text = (value: unknown): string => (value === undefined || value === null ? "" : String(value));

/** A number as it is meant, or the text as it was typed, which the server then names with its field. */
export function figure(typed: string): number | string | undefined {
  const plain = typed.trim().replace("−", "-");
  if (plain === "") return undefined;
  const value = Number(/^[+-]?\d+,\d+$/.test(plain) ? plain.replace(",", ".") : plain);
  return Number.isFinite(value) ? value : typed.trim();
}

/** A moment: elapsed seconds as a number, a date and time as text. */
const momentOf = (typed: string): number | string | undefined => figure(typed.trim().replace(" ", "T"));

/** Leaves out what is undefined or an object without fields. */
function whole(fields: Bag): Record<string, unknown> | undefined {
  const stated = Object.entries(fields).filter(([, value]) => value !== undefined && value !== "");
  return stated.length === 0 ? undefined : Object.fromEntries(stated);
}

const LOG_NUMBERS = new Set(["headingRow"]);

/** The description that the set-up makes, finished or not. */
export function documentOf(draft: SetUp): Record<string, unknown> {
  const [first, ...more] = draft.logs.map(({ file, fields }) => ({
    file,
    ...Object.fromEntries(
      Object.entries(fields)
        .filter(([, value]) => value !== "")
        .map(([name, value]) => [
          name,
          name === "noReading"
            ? value
                .split(/[,;]/)
                .map((word) => word.trim())
                .filter((word) => word !== "")
            : LOG_NUMBERS.has(name)
              ? figure(value)
              : value,
        ]),
    ),
  }));
  const { bath: _bath, stability: _stability, ...others } = draft.others;
  return {
    ...others,
    title: draft.title.trim(),
    ...whole({
      notes: draft.notes.trim(),
      bath: whole({
        ...bag(draft.others["bath"]),
        fluid: draft.fluid,
        setTemperature: figure(draft.setTemperature),
        flashPoint: figure(draft.flashPoint),
        overTemperatureCutOut: figure(draft.overTemperatureCutOut),
      }),
      log: first === undefined ? undefined : { ...first, ...(more.length === 0 ? {} : { more }) },
    }),
    thermometers: Object.fromEntries(
      draft.thermometers.map(({ name, file, column, unit, r0, a, b, c }) => [
        name,
        whole({
          file: file === draft.logs[0]?.file ? undefined : file,
          column: column === name ? undefined : column,
          unit,
          nominalResistance: unit === "Ω" ? figure(r0) : undefined,
          coefficients: unit === "Ω" ? whole({ A: figure(a), B: figure(b), C: figure(c) }) : undefined,
        }) ?? {},
      ]),
    ),
    positions: Object.fromEntries(
      draft.positions.map(({ name, depth, radius, direction }) => [
        name,
        whole({ depth: figure(depth), radius: figure(radius), direction: direction.trim() }) ?? {},
      ]),
    ),
    reference: draft.reference,
    steps: draft.steps.map(({ from, to, at }) => ({
      ...whole({ from: momentOf(from), to: momentOf(to) }),
      at: Object.fromEntries(Object.entries(at).filter(([, position]) => position !== "")),
    })),
    ...whole({
      settlingMinutes: figure(draft.settlingMinutes),
      calibrationMinutes: figure(draft.calibrationMinutes),
      stability: whole({
        ...bag(draft.others["stability"]),
        windowMinutes: figure(draft.windowMinutes),
        cycleMinutes: figure(draft.cycleMinutes),
      }),
      zone: whole({
        depth:
          draft.zoneFrom.trim() === "" && draft.zoneTo.trim() === ""
            ? undefined
            : [figure(draft.zoneFrom) ?? "", figure(draft.zoneTo) ?? ""],
        radius: figure(draft.zoneRadius),
      }),
      arrangement: draft.arrangement,
      maximumGapSeconds: figure(draft.maximumGapSeconds),
    }),
  };
}

const KNOWN: ReadonlySet<string> = new Set([
  "title",
  "notes",
  "log",
  "thermometers",
  "positions",
  "reference",
  "steps",
  "settlingMinutes",
  "calibrationMinutes",
  "zone",
  "arrangement",
  "maximumGapSeconds",
]);

/** The set-up that makes a description: what it has no field for stays. */
export function setUpOf(document: Bag): SetUp {
  const { more, ...first } = bag(document["log"]);
  const logs = [first, ...list(more).map(bag)].filter(({ file }) => typeof file === "string");
  const names = logs.map(({ file }) => text(file));
  const bath = bag(document["bath"]);
  const stability = bag(document["stability"]);
  const zone = bag(document["zone"]);
  const depth = list(zone["depth"]);
  const others = Object.fromEntries(Object.entries(document).filter(([name]) => !KNOWN.has(name)));
  return {
    ...emptySetUp(),
    title: text(document["title"]),
    notes: text(document["notes"]),
    fluid: text(bath["fluid"]),
    setTemperature: text(bath["setTemperature"]),
    flashPoint: text(bath["flashPoint"]),
    overTemperatureCutOut: text(bath["overTemperatureCutOut"]),
    logs: logs.map(({ file, ...fields }) => ({
      file: text(file),
      fields: Object.fromEntries(
        Object.entries(fields).map(([name, value]) => [name, Array.isArray(value) ? value.join(", ") : text(value)]),
      ),
    })),
    thermometers: Object.entries(bag(document["thermometers"])).map(([name, stated]) => {
      const { file, column, unit, nominalResistance, coefficients } = bag(stated);
      const { A, B, C } = bag(coefficients);
      return {
        name,
        file: text(file) || (names[0] ?? ""),
        column: text(column),
        unit: text(unit),
        r0: text(nominalResistance),
        a: text(A),
        b: text(B),
        c: text(C),
      };
    }),
    positions: Object.entries(bag(document["positions"])).map(([name, stated]) => {
      const place = bag(stated);
      return { name, depth: text(place["depth"]), radius: text(place["radius"]), direction: text(place["direction"]) };
    }),
    reference: text(document["reference"]),
    steps: list(document["steps"]).map((stated) => {
      const { from, to, at } = bag(stated);
      return {
        from: text(from).replace("T", " "),
        to: text(to).replace("T", " "),
        at: Object.fromEntries(Object.entries(bag(at)).map(([name, position]) => [name, text(position)])),
      };
    }),
    ...(document["settlingMinutes"] === undefined ? {} : { settlingMinutes: text(document["settlingMinutes"]) }),
    calibrationMinutes: text(document["calibrationMinutes"]),
    windowMinutes: text(stability["windowMinutes"]),
    cycleMinutes: text(stability["cycleMinutes"]),
    zoneFrom: text(depth[0]),
    zoneTo: text(depth[1]),
    zoneRadius: text(zone["radius"]),
    arrangement: text(document["arrangement"]) || "reference-fixed",
    maximumGapSeconds: text(document["maximumGapSeconds"]),
    others,
  };
}

/** Seconds of a typed moment, or `null`: what the picture of the log draws. */
export function secondsOf(typed: string): number | null {
  const value = momentOf(typed);
  if (typeof value === "number") return value;
  if (value === undefined || !/^\d{4}-\d{2}-\d{2}T\d{1,2}:\d{2}(:\d{2}(\.\d+)?)?$/.test(value)) return null;
  const time = Date.parse(`${value.length < 17 ? `${value}:00` : value}Z`);
  return Number.isNaN(time) ? null : time / 1000;
}

/** From this many seconds on a log counts dates. */
const DATES = 86_400 * 365;

/** A moment as it is typed. */
export const typedMoment = (seconds: number): string =>
  seconds < DATES
    ? String(Number(seconds.toFixed(3)))
    : new Date(1000 * Math.round(seconds)).toISOString().slice(0, 19).replace("T", " ");
