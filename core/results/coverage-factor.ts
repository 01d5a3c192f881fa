/**
 * Coverage factor for about 95 %: k = 2 for many degrees of freedom, Student's t for 95.45 % below that
 * (GUM, JCGM 100:2008, G.6.4 and Table G.2).
 */

/** t for 95.45 % (the column that gives exactly 2 for a normal distribution), by degrees of freedom. */
const T_95_45: readonly (readonly [number, number])[] = [
  [1, 13.97],
  [2, 4.53],
  [3, 3.31],
  [4, 2.87],
  [5, 2.65],
  [6, 2.52],
  [7, 2.43],
  [8, 2.37],
  [9, 2.32],
  [10, 2.28],
  [11, 2.25],
  [12, 2.23],
  [13, 2.21],
  [14, 2.2],
  [15, 2.18],
  [16, 2.17],
  [17, 2.16],
  [18, 2.15],
  [19, 2.14],
  [20, 2.13],
  [25, 2.11],
  [30, 2.09],
  [35, 2.07],
  [40, 2.06],
  [45, 2.06],
  [50, 2.05],
];

/** From here on k = 2 is used: the difference is below what two digits of an uncertainty show. */
export const DEGREES_OF_FREEDOM_LARGE = 50;

/** k for effective degrees of freedom; undefined means infinitely many. Broken numbers are cut to the next lower entry (GUM G.4.1, note 2). */
export function coverageFactor(degreesOfFreedom: number | undefined): number {
  if (degreesOfFreedom === undefined || degreesOfFreedom > DEGREES_OF_FREEDOM_LARGE) return 2;
  let factor = T_95_45[0]?.[1] ?? 2;
  for (const [dof, t] of T_95_45) if (dof <= degreesOfFreedom) factor = t;
  return factor;
}
