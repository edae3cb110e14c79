/** A matrix as rows. Those met here are small (inputs or measurands of one study) and symmetric unless said. */
export type Matrix = readonly (readonly number[])[];
