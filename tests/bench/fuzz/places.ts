/** Places in a case, from 0 to below 1, drawn evenly. Numbers drawn as doubles are mostly next to 0: there are most of them there. */
import fc from 'fast-check';

const PARTS = 2 ** 30;

export const place: fc.Arbitrary<number> = fc.noBias(fc.nat({ max: PARTS - 1 })).map((part) => part / PARTS);
