/** What takes longest begins first, so that no worker is left with it when the others have ended. */
import { existsSync } from 'node:fs';
import { BaseSequencer, type TestSpecification } from 'vitest/node';

/** Over a minute each, the longest first. */
const LONGEST = [
  'window-killed',
  'window-looked-over',
  'window-leaving',
  'window-full-pull',
  'window-recorder-killed',
  'picture-pdf',
  'certificate-pdf',
  'window-acts-by-hand',
  'window-whole-job',
  'window-exchange',
  'window-learns',
];

const place = ({ moduleId }: TestSpecification): number => {
  const found = LONGEST.findIndex((name) => moduleId.endsWith(`/${name}.test.ts`));
  return found < 0 ? LONGEST.length : found;
};

export class LongestFirst extends BaseSequencer {
  override async sort(files: TestSpecification[]): Promise<TestSpecification[]> {
    const missing = LONGEST.find((name) => !existsSync(new URL(`../${name}.test.ts`, import.meta.url)));
    if (missing !== undefined)
      throw new Error(`There is no test file ${missing} any more; see ${import.meta.filename}.`);
    return (await super.sort(files)).sort((one, other) => place(one) - place(other));
  }
}
