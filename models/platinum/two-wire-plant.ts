import { defineModel } from "../../engine/index.ts";
import { PLANT_CAUTIONS } from "./cautions.ts";
import { leadAt, twoWire, withoutShunt } from "./chain/lead-resistance.ts";
import { temperatureOf } from "./iec60751.ts";

/**
 * Temperature in a plant by an industrial platinum thermometer on two leads. What the leads add is estimated from their
 * resistance at 20 °C and the temperature along the cable run; damp insulation is a conductance beside the sensor.
 */
export const twoWirePlant = defineModel({
  id: "two-wire-plant",
  title: "Platinum probe with two-wire leads in a plant",
  equation:
    "t = t(R_X/(R_0 + δR_0)) + δt_cls − δt_sh − δt_cond, R_X = R′/(1 − R′·G), R′ = R_ind + δR_ro − 2·r_20·[1 + α_Cu·(t_L − 20 °C)] − r_c",
  source: "t(R) by IEC 60751, clause 4; lead and insulation terms: common practice",
  cautions: PLANT_CAUTIONS,
  measurands: {
    temperature: { symbol: "t", meaning: "temperature of the medium at the probe", unit: "°C", difference: false },
  },
  inputs: {
    indicatedResistance: {
      symbol: "R_ind",
      meaning: "resistance at the transmitter's terminals, mean of the indications",
      unit: "Ω",
    },
    readout: { symbol: "δR_ro", meaning: "correction of the transmitter", unit: "Ω" },
    leadResistance: { symbol: "r_20", meaning: "resistance of one lead at 20 °C", unit: "Ω" },
    leadTemperature: { symbol: "t_L", meaning: "temperature along the cable run", unit: "°C" },
    leadCoefficient: { symbol: "α_Cu", meaning: "temperature coefficient of the leads at 20 °C", unit: "1/°C" },
    contacts: { symbol: "r_c", meaning: "resistance of terminals and contacts together", unit: "Ω" },
    leakage: { symbol: "G", meaning: "conductance of the insulation beside the sensor", unit: "S" },
    nominalResistance: { symbol: "R_0", meaning: "nominal resistance of the probe at 0 °C", unit: "Ω" },
    zeroShift: { symbol: "δR_0", meaning: "change of R_0 since the probe was new or last checked", unit: "Ω" },
    classDeviation: {
      symbol: "δt_cls",
      meaning: "departure of the probe from the standard curve, within its tolerance class",
      unit: "°C",
      difference: true,
    },
    selfHeating: {
      symbol: "δt_sh",
      meaning: "warming of the probe by its measuring current",
      unit: "°C",
      difference: true,
    },
    conduction: { symbol: "δt_cond", meaning: "heat conducted along pocket and stem", unit: "°C", difference: true },
  },
  evaluate: (x) => {
    const lead = leadAt(x.leadResistance, x.leadTemperature, x.leadCoefficient);
    const indicated = twoWire(x.indicatedResistance + x.readout, lead, lead) - x.contacts;
    const sensor = withoutShunt(indicated, x.leakage);
    return (
      temperatureOf(sensor / (x.nominalResistance + x.zeroShift)) + x.classDeviation - x.selfHeating - x.conduction
    );
  },
});
