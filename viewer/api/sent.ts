/** A value as JSON carries it: an infinite number of degrees of freedom becomes `null`. */
export type Sent<T> = T extends object
  ? { readonly [K in keyof T]: K extends "degreesOfFreedom" ? Sent<T[K]> | null : Sent<T[K]> }
  : T;
