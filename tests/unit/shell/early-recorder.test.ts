import { mkdirSync, mkdtempSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { dirname, join } from 'node:path';
import { afterAll, expect, it } from 'vitest';
import { startEarly } from '../../../electron/main/early-recorder.ts';
import { socketPlace } from '../../../electron/recorder/socket-place.ts';

const scratch = mkdtempSync(join(tmpdir(), 'gaugemark-early-'));
afterAll(() => rmSync(scratch, { recursive: true }));

it('is started where no socket lies, and handed out once, for its own archive', () => {
  const started: string[] = [];
  const archive = join(scratch, 'a.gaugemark');
  const early = startEarly(archive, (path) => {
    started.push(path);
    return new Promise(() => undefined);
  });
  expect(started).toEqual([archive]);
  expect(early?.takenFor(archive)).toBeInstanceOf(Promise);
  // The next start is one of its own: this recorder has ended, or is about to.
  expect(early?.takenFor(archive)).toBeNull();
});

it('is not taken for the recorder of another archive', () => {
  const early = startEarly(join(scratch, 'b.gaugemark'), () => new Promise(() => undefined));
  expect(early?.takenFor(join(scratch, 'c.gaugemark'))).toBeNull();
});

it('is not started where a socket lies: a recorder may answer there', () => {
  const archive = join(scratch, 'd.gaugemark');
  const { path } = socketPlace(archive);
  mkdirSync(dirname(path), { recursive: true, mode: 0o700 });
  writeFileSync(path, '');
  try {
    let count = 0;
    const early = startEarly(archive, () => {
      count++;
      return new Promise(() => undefined);
    });
    expect([early, count]).toEqual([null, 0]);
  } finally {
    rmSync(path);
  }
});
