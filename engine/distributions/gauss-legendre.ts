/** Positive nodes and their weights of the 20-point Gauss–Legendre rule: computed with 40 digits, sum of weights checked. */
const NODES = [
  [0.993128599185094925, 0.0176140071391521183],
  [0.963971927277913791, 0.0406014298003869413],
  [0.912234428251325906, 0.0626720483341090636],
  [0.839116971822218823, 0.0832767415767047487],
  [0.746331906460150793, 0.101930119817240435],
  [0.636053680726515025, 0.118194531961518417],
  [0.510867001950827098, 0.131688638449176627],
  [0.373706088715419561, 0.142096109318382051],
  [0.227785851141645078, 0.149172986472603747],
  [0.0765265211334973338, 0.152753387130725851],
] as const;

/** ∫ f from a to b by the 20-point Gauss–Legendre rule: exact for polynomials to degree 39. */
export function gaussLegendre(f: (x: number) => number, a: number, b: number): number {
  const half = (b - a) / 2;
  const middle = a + half;
  let sum = 0;
  for (const [node, weight] of NODES) sum += weight * (f(middle - half * node) + f(middle + half * node));
  return half * sum;
}
