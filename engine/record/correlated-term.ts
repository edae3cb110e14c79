/** What a correlation between two inputs adds to u²(y): 2·c_i·c_j·u(x_i)·u(x_j)·r (JCGM 100, 5.2.2). */
export interface CorrelatedTerm {
  readonly between: readonly [string, string];
  readonly coefficient: number;
  readonly term: number;
  /** Its part of u²(y); negative where it makes the uncertainty smaller. */
  readonly share: number;
}
