import { existsSync, mkdtempSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { dirname, join } from 'node:path';
import { expect, it } from 'vitest';
import { freshTourArchive, notInTour } from '../../../electron/main/tour-archive.ts';

it('gives each tour a folder of its own and takes earlier ones away, and nothing else', () => {
  const folder = mkdtempSync(join(tmpdir(), 'gaugemark-unit-'));
  try {
    const first = freshTourArchive(folder);
    writeFileSync(first, 'of a tour');
    writeFileSync(join(folder, 'pulls.gaugemark'), 'somebody’s own');
    const second = freshTourArchive(folder);
    expect(second).not.toBe(first);
    expect(existsSync(dirname(first))).toBe(false);
    expect(existsSync(dirname(second))).toBe(true);
    expect(existsSync(join(folder, 'pulls.gaugemark'))).toBe(true);
  } finally {
    rmSync(folder, { recursive: true });
  }
});

it('takes only the simulated frame, and nothing that somebody has really measured', () => {
  expect(notInTour('readout.open', { source: { kind: 'simulated', scenario: 'x' } })).toBeNull();
  expect(notInTour('specimen.save', {})).toBeNull();
  for (const kind of ['serial', 'tcp', 'replay'])
    expect(notInTour('readout.open', { source: { kind } })?.code).toBe('tour');
  expect(notInTour('pull.ready', { source: { kind: 'serial' } })?.code).toBe('tour');
  for (const name of ['archive.backup', 'archive.backup-into'] as const)
    expect(notInTour(name, {})?.code).toBe('tour');
  expect(notInTour('pull.type', {})?.sentence).toMatch(/Leave the tour first\.$/);
});
