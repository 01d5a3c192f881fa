/** The functions of jstat that the tests compare against; the package has no types of its own. */
declare module 'jstat' {
  interface Jstat {
    readonly normal: { cdf(x: number, mean: number, standardDeviation: number): number };
    readonly studentt: {
      cdf(t: number, degreesOfFreedom: number): number;
      inv(share: number, degreesOfFreedom: number): number;
    };
    readonly noncentralt: { cdf(x: number, degreesOfFreedom: number, noncentrality: number): number };
  }
  const jstat: Jstat;
  export default jstat;
}
