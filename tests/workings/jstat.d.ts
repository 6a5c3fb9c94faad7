/** What the tests use of jstat, which brings no types. */
declare module 'jstat' {
  const jstat: {
    lowRegGamma(a: number, x: number): number;
    chisquare: { inv(p: number, degrees: number): number };
    beta: { inv(p: number, a: number, b: number): number };
    normal: { cdf(x: number, mean: number, deviation: number): number };
  };
  export default jstat;
}
