/** `gaugemark laboratory`: who issues certificates, said without a window. */
import { join } from 'node:path';
import { beforeEach, describe, expect, it } from 'vitest';
import { openArchive, scratchFolder } from '../archive/made-archive.ts';
import { ran } from './in-process.ts';

let archive: string;
beforeEach(() => {
  archive = join(scratchFolder(), 'a.gaugemark');
  openArchive(archive).close();
});
const laboratory = (...args: string[]): ReturnType<typeof ran> =>
  ran('laboratory', '--archive', archive, ...args);

describe('gaugemark laboratory', () => {
  it('shows that none is entered, takes a name with its address, and shows that', async () => {
    expect(JSON.parse((await laboratory('--json')).out)).toEqual({ laboratory: null });
    const said = await laboratory('--name', ' Bench Four ', '--address', '12 Quay Road\nHarbour\n');
    expect((await laboratory()).out).toBe(said.out);
    await laboratory('--name', 'Bench Five');
    expect(JSON.parse((await laboratory('--json')).out)).toEqual({
      laboratory: { name: 'Bench Five', lines: [] },
    });
  });

  it.each([
    [['--address', '12 Quay Road'], /name of the laboratory is missing/],
    [['--name', '  '], /name of the laboratory is missing/],
    [['--name', 'x'.repeat(301)], /at most 300 characters/],
    [['--name', 'x', '--address', 'a\n'.repeat(9)], /has 9 lines; at most 8/],
  ])('refuses %j with one sentence before it opens anything', async (args, words) => {
    const { code, err } = await laboratory(...args);
    expect([code, err]).toEqual([2, expect.stringMatching(words)]);
  });
});
