/** A matrix as rows. Those used here are small (inputs or measurands of one study) and symmetric unless stated otherwise. */
export type Matrix = readonly (readonly number[])[];
