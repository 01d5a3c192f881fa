/** Faults in the shape of a specimen file, with what would stand there instead. */
import type { z } from 'zod';
import { type ShapeFault, shapeFaults } from '../shape-faults.ts';
import { specimenFile } from './specimen-file.ts';

export function specimenShapeFaults(issues: readonly z.core.$ZodIssue[], input: unknown): ShapeFault[] {
  return shapeFaults(issues, input, { whole: 'The specimen', example, schema: specimenFile });
}

const EXAMPLES: readonly (readonly [RegExp, string | null])[] = [
  [/^$/, '{"id": "T-1", "geometry": {"kind": "round", "diameter": "12.5 mm"}}'],
  [/^id$/, '"T-1"'],
  [/^geometry$/, '{"kind": "flat", "width": "19.05 mm", "thickness": "6.3 mm"}'],
  [/^geometry\.mass/, '"158.2 g"'],
  [/^geometry\.density/, '"7.85 g/cm3"'],
  [/[gG]augeLength/, '"50 mm" or "2 in"'],
  [/^fractureIntervals(?:\.intervals|\.between)?$|^notes$/, null],
];

function example(field: string): string | null {
  const found = EXAMPLES.find(([pattern]) => pattern.test(field));
  return found === undefined ? '"12.5 mm" or "1/2 in"' : found[1];
}
