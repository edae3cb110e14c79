import {
  InputError,
  refuse,
  show,
  type Problem,
  type Statement,
  type Model,
  type StudyDocument,
} from "../../engine/index.ts";
import { readBySchema } from "../../engine/internal.ts";
import { errorName } from "./calibration-points.ts";
import { certificateFieldsOf } from "./certificate-fields.ts";
import { calibrationSchema, SUB_RANGES, type CalibratedInstrument, type Calibration } from "./document.ts";
import { fittedPoints, temperaturesOf } from "./point-covariance.ts";
import { undetermined, undeterminedDeviation } from "./fit-of-points.ts";
import { subRangeOf } from "../platinum/its90/sub-ranges.ts";
import { RANGES_NOTE, toleranceClasses } from "../platinum/tolerance-class.ts";
import { pointModelOf } from "./point-model.ts";
import { pointName, wire, type Wiring } from "./wiring.ts";

/**
 * Checks a calibration document and fills its defaults.
 *
 * @throws {InputError} every problem found, each with its place, value and accepted values
 */
export function readCalibration(document: unknown): Calibration {
  const calibration = readBySchema(calibrationSchema, document);
  const problems: Problem[] = [];
  const ids = calibration.instruments.map(({ id }) => id);
  ids.forEach((id, i) => {
    if (ids.indexOf(id) !== i)
      problems.push({
        place: `instruments.${i}.id`,
        value: show(id),
        accepted: "another designation for each instrument",
      });
  });
  for (const [name, { bath }] of Object.entries(calibration.baths)) {
    const set = bath?.["setTemperature"];
    if (typeof set !== "number") continue;
    calibration.points.forEach((point, i) => {
      if (point.bath === name && Math.abs(point.nominal - set) > FROM_SET)
        problems.push({
          place: `points.${i}.nominal`,
          value: show(point.nominal),
          accepted: `a temperature within ${FROM_SET} °C of ${set} °C, which bath ${name} is set to, or another bath`,
        });
    });
  }
  problems.push(...calibration.instruments.flatMap((_, i) => instrumentProblems(calibration, i)));
  problems.push(...orderProblems(calibration), ...dateProblems(calibration));
  if (problems.length > 0) throw new InputError(problems);
  return calibration;
}

/** A point that cannot have been reached from below, or from above, after the one before it. */
function orderProblems({ points }: Calibration): readonly Problem[] {
  return points.slice(1).flatMap(({ nominal, direction }, k): Problem[] => {
    const before = points[k]!.nominal;
    const reached = nominal > before ? "rising" : nominal < before ? "falling" : direction;
    return direction === undefined || direction === reached
      ? []
      : [
          {
            place: `points.${k + 1}.direction`,
            value: show(direction),
            accepted: `"${reached}" at ${nominal} °C after ${before} °C, another order of the points (they stand in the order in which they were measured), or no direction if the instrument was at room temperature between the two`,
          },
        ];
  });
}

/** A certificate that is issued before the calibration ends, or an instrument that arrives after it begins. */
function dateProblems(calibration: Calibration): readonly Problem[] {
  return calibration.instruments.flatMap(({ id }, i): Problem[] => {
    const { fields, item, performed } = certificateFieldsOf(calibration, id);
    if (performed === null) return [];
    return [
      ...(i === 0 && fields.issued !== undefined && fields.issued < performed.to
        ? [
            {
              place: "certificate.issued",
              value: show(fields.issued),
              accepted: `a day no earlier than the last of the calibration, ${performed.to}`,
            },
          ]
        : []),
      ...(item.received !== undefined && item.received > performed.from
        ? [
            {
              place: `instruments.${i}.certificate.received`,
              value: show(item.received),
              accepted: `a day no later than the first of the calibration, ${performed.from}`,
            },
          ]
        : []),
    ];
  });
}

/** A fit that the points do not determine, a class that does not hold at one of them. */
function instrumentProblems(calibration: Calibration, i: number): readonly Problem[] {
  const { instruments, points } = calibration;
  const { fit, tolerance, subRange } = instruments[i]!;
  const nominal = points.map((point) => point.nominal);
  if (fit === "ITS-90") return standardProblems(calibration, i, nominal);
  if (subRange !== undefined)
    return [
      { place: `instruments.${i}.subRange`, value: show(subRange), accepted: `nothing: fit is ${fit}, not ITS-90` },
    ];
  const open = fit === "none" ? null : undetermined(nominal, fit === "R0-A-B-C");
  if (tolerance === undefined) return open === null ? [] : [open];
  const { ranges } = toleranceClasses[tolerance.class];
  // Without the kind of its element, the wider range holds.
  const [low, high] = ranges[tolerance.element ?? "wire"];
  return [
    ...(open === null ? [] : [open]),
    ...nominal.flatMap((t, k) =>
      t >= low && t <= high
        ? []
        : [
            {
              place: `points.${k}.nominal`,
              value: show(t),
              accepted: `a temperature from ${low} °C to ${high} °C, where class ${tolerance.class} of instruments.${i} holds (${RANGES_NOTE})`,
            },
          ],
    ),
  ];
}

/** What a standard thermometer lacks: its sub-range, points in it, or what only other thermometers have. */
function standardProblems({ instruments }: Calibration, i: number, nominal: readonly number[]): readonly Problem[] {
  const { tolerance, subRange } = instruments[i]!;
  return [
    ...(subRange === undefined
      ? [
          {
            place: `instruments.${i}.subRange`,
            value: "nothing",
            accepted: `for fit ITS-90 a sub-range, one of ${SUB_RANGES.join(", ")}`,
          },
        ]
      : undeterminedDeviation(nominal, subRangeOf(subRange))),
    ...(tolerance === undefined
      ? []
      : [
          {
            place: `instruments.${i}.tolerance`,
            value: show(tolerance.class),
            accepted: "nothing: classes of IEC 60751 are for industrial thermometers, and fit is ITS-90",
          },
        ]),
  ];
}

/** A bath set further than this from a nominal temperature is another bath's, °C (common practice). */
const FROM_SET = 5;

/** Files that a calibration names and that were not read into its statements: `studyOf` then lacks inputs. */
export const namesFiles = ({ reference, baths, points }: Calibration): boolean =>
  reference !== undefined ||
  Object.values(baths).some(({ survey }) => survey !== undefined) ||
  points.some(({ readings }) => readings !== undefined);

/**
 * The study of one instrument's calibration: model `calibration-points`, whose errors at all points are joint
 * measurands. Its weights are the joint covariance of the points by the linear budget.
 *
 * @param calibration with the statements of its files in it
 * @param independent as if the points shared nothing: to show what that would claim, never for a result
 * @throws {InputError} what is stated nowhere or twice, a bath or an instrument that does not exist, points that do not
 *   determine the coefficients
 */
export function studyOf(calibration: Calibration, id: string, independent = false): StudyDocument {
  const { model } = pointModelOf(calibration.pointModel, calibration.pointParameters);
  const instruments = calibration.instruments.map((each, i) => withNominal(each, i, model));
  const instrument =
    instruments.find((each) => each.id === id) ??
    refuse("instruments", id, `one of ${instruments.map((each) => each.id).join(", ")}`);
  const { inputs: needed, optionalInputs = {} } = model;
  const wiring = wire({ ...calibration, instruments }, instrument, needed, optionalInputs, independent);
  return atItsPlaces(wiring, () => {
    const study = documentOf(calibration, instrument, wiring, independent ? [] : correlationsOf(calibration, wiring));
    refuseOtherTemperatures(calibration, study);
    return instrument.fit === "none" || calibration.weights === "equal" ? study : weighed(study, independent);
  });
}

/** A study whose fit weighs its points by the inverse of their joint covariance, or of its diagonal. */
function weighed(study: StudyDocument, independent: boolean): StudyDocument {
  const { covariance } = fittedPoints(study);
  const weights = covariance.map((row, i) => row.map((value, j) => (independent && i !== j ? 0 : value)));
  const parameters = study.parameters as Readonly<Record<string, JSONType>> & {
    readonly fit: Record<string, JSONType>;
  };
  return { ...study, parameters: { ...parameters, fit: { ...parameters.fit, covariance: weights } } };
}

/** Does some work on the study of a wiring; a statement that cannot be used is named by its place in the calibration. */
function atItsPlaces<T>({ places }: Wiring, work: () => T): T {
  try {
    return work();
  } catch (error) {
    if (!(error instanceof InputError)) throw error;
    throw new InputError(
      error.problems.map((problem) => {
        const [, name, rest] = /^inputs\.(\w+)(.*)$/s.exec(problem.place) ?? [];
        const place = name === undefined ? undefined : places[name];
        return place === undefined ? problem : { ...problem, place: `${place}${rest}` };
      }),
    );
  }
}

/** Indications of another temperature than the point's: a swapped file or column. @throws {InputError} */
function refuseOtherTemperatures({ points }: Calibration, study: StudyDocument): void {
  const problems = temperaturesOf(study).flatMap((temperature, i): Problem[] =>
    Math.abs(temperature - points[i]!.nominal) <= FROM_NOMINAL
      ? []
      : [
          {
            place: `points.${i}.nominal`,
            value: show(points[i]!.nominal),
            accepted: `a temperature within ${FROM_NOMINAL} °C of ${Number(temperature.toFixed(3))} °C, which the reference gives at this point`,
          },
        ],
  );
  if (problems.length > 0) throw new InputError(problems);
}

/** Indications may differ from the nominal temperature by this, °C (common practice: baths are set within tenths). */
const FROM_NOMINAL = 2;

type JSONType = NonNullable<StudyDocument["parameters"]>[string];

/** R_0 of the instrument as an input of its points: one figure for errors and fit. @throws {InputError} stated twice */
function withNominal(instrument: CalibratedInstrument, i: number, { inputs }: Model): CalibratedInstrument {
  if (!Object.hasOwn(inputs, "nominalResistance")) return instrument;
  if (Object.hasOwn(instrument.common, "nominalResistance"))
    refuse(
      `instruments.${i}.common.nominalResistance`,
      instrument.common["nominalResistance"],
      `nothing: instruments.${i}.nominalResistance states it`,
    );
  const statement: Statement = {
    distribution: "constant",
    value: instrument.nominalResistance,
    source: "nominal resistance that errors refer to",
  };
  return { ...instrument, common: { ...instrument.common, nominalResistance: statement } };
}

function documentOf(
  calibration: Calibration,
  { id, fit, nominalResistance, tolerance, subRange }: CalibratedInstrument,
  { points, inputs }: Wiring,
  correlations: NonNullable<StudyDocument["correlations"]>,
): StudyDocument {
  const { title, laboratory, notes, negligible, coverage, significantDigits, trials, seed } = calibration;
  const baths = bathsOf(calibration);
  return {
    title: `${title}: ${id}`,
    ...(laboratory === undefined ? {} : { laboratory }),
    ...(notes === undefined ? {} : { notes }),
    model: "calibration-points",
    parameters: {
      instrument: id,
      pointModel: calibration.pointModel,
      ...(Object.keys(calibration.pointParameters).length === 0
        ? {}
        : { pointParameters: calibration.pointParameters as JSONType }),
      points: calibration.points.map(({ nominal, exchanged }, i) => ({
        name: pointName(i),
        nominal,
        inputs: points[i]!,
        ...(exchanged ? { exchanged } : {}),
      })),
      ...(fit === "none"
        ? {}
        : {
            fit: {
              nominalResistance,
              ...(fit === "ITS-90" ? { subRange: subRange! } : { fitC: fit === "R0-A-B-C" }),
            },
          }),
    },
    ...(Object.keys(baths).length === 0 ? {} : { bath: baths }),
    inputs,
    ...(negligible === undefined ? {} : { negligible }),
    ...(correlations.length === 0 ? {} : { correlations }),
    coverage,
    significantDigits,
    trials,
    seed,
    ...(tolerance === undefined
      ? {}
      : {
          conformity: Object.fromEntries(
            calibration.points.map(({ nominal }, i) => [
              errorName(pointName(i)),
              {
                tolerance: {
                  specification: "iec60751",
                  parameters: {
                    class: tolerance.class,
                    temperature: nominal,
                    ...(tolerance.element === undefined ? {} : { element: tolerance.element }),
                  },
                },
                guardBandMultiplier: calibration.guardBandMultiplier,
              },
            ]),
          ),
        }),
  };
}

/** What is stated of each bath at each of its temperatures: a bath without a set temperature is set to its points'. */
function bathsOf({ baths, points }: Calibration): Record<string, JSONType> {
  return Object.fromEntries(
    Object.entries(baths).flatMap(([name, { bath }]): [string, JSONType][] => {
      if (bath === undefined) return [];
      const stated = bath as { readonly [key: string]: JSONType };
      if (stated["setTemperature"] !== undefined) return [[name, stated]];
      const temperatures = [...new Set(points.filter((point) => point.bath === name).map(({ nominal }) => nominal))];
      return temperatures.map((setTemperature) => [
        temperatures.length === 1 ? name : `${name} at ${setTemperature} °C`,
        { ...stated, setTemperature },
      ]);
    }),
  );
}

/** Correlations of what is stated point by point though its cause is shared. @throws {InputError} */
function correlationsOf({ together }: Calibration, { points }: Wiring): NonNullable<StudyDocument["correlations"]> {
  return together.flatMap(({ input, coefficient, source }, k) => {
    const names = [...new Set(points.flatMap((wired) => (wired[input] === undefined ? [] : [wired[input]])))];
    if (names.length < 2)
      refuse(`together.${k}.input`, input, "an input quantity that is stated point by point, at two points or more");
    return names.flatMap((a, i) =>
      names.slice(i + 1).map((b) => ({
        between: [a, b] as [string, string],
        coefficient,
        ...(source === undefined ? {} : { source }),
      })),
    );
  });
}
