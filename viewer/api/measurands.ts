/** `GET /api/runs/:id/measurands/:name/interval?p=`: coverage intervals at a probability of the reader's choice. */
export interface ChosenInterval {
  readonly probability: number;
  readonly symmetric: readonly [number, number];
  readonly shortest: readonly [number, number];
}
