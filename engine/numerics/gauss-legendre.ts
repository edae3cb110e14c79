/** Positive nodes and their weights of the 20-point Gauss–Legendre rule: computed with 40 digits, sum of weights checked. */
const NODES = [
  [0.9931285991850949, 0.017614007139152118],
  [0.9639719272779138, 0.04060142980038694],
  [0.912234428251326, 0.06267204833410907],
  [0.8391169718222188, 0.08327674157670475],
  [0.7463319064601508, 0.10193011981724044],
  [0.636053680726515, 0.11819453196151841],
  [0.5108670019508271, 0.13168863844917664],
  [0.37370608871541955, 0.14209610931838204],
  [0.22778585114164507, 0.14917298647260374],
  [0.07652652113349734, 0.15275338713072584],
] as const;

/** ∫ f over [start, start + width] by the 20-point Gauss–Legendre rule: exact for polynomials to degree 39. */
export function gaussLegendre(f: (x: number) => number, start: number, width: number): number {
  const half = width / 2;
  let sum = 0;
  for (const [node, weight] of NODES) sum += weight * (f(start + half * (1 - node)) + f(start + half * (1 + node)));
  return half * sum;
}
