/** A check in steps: between any two of them the archive is read and written, and only what was there at its start is looked at. */
import { join } from 'node:path';
import { expect, it } from 'vitest';
import { checkInSteps } from '../../../core/archive/check-archive.ts';
import { CheckLines } from '../../../core/archive/check-lines.ts';
import { CHECK_FAULT_LINES_MAX, CHECK_SOUND_LINES_MAX } from '../../../core/limits.ts';
import { reparse } from '../../../electron/recorder/reparse.ts';
import { SPECIMEN, keptPull, openArchive, scratchFolder } from './made-archive.ts';

it('lets everything be kept between its steps, and says of the rows of its start what a check in one go says', () => {
  const archive = openArchive(join(scratchFolder(), 'a.gaugemark'));
  for (let i = 0; i < 3; i++) keptPull(archive, 40, 20);
  const before = archive.check({ reparse });
  expect(before.sound).toBe(true);
  const entries = (): unknown => archive.connection.prepare('SELECT count(*) FROM audit').pluck().get();
  const atStart = entries();
  const steps = checkInSteps(archive.connection, { reparse });
  const told = new Set<string>();
  let step = steps.next();
  for (; step.done !== true; step = steps.next()) {
    told.add(`${step.value.done}/${step.value.of}`);
    // A statement that is half walked through would refuse this.
    archive.saveSpecimen({ specimen: { ...SPECIMEN, id: `kept meanwhile ${String(told.size)}` } });
  }
  expect(entries()).toBeGreaterThan(Number(atStart));
  expect([...told]).toEqual(['0/3', '1/3', '2/3']);
  expect(step.value).toEqual(before);
});

it('finds what was changed before its start although the archive goes on', () => {
  const archive = openArchive(join(scratchFolder(), 'a.gaugemark'));
  const pullId = keptPull(archive, 40, 20);
  archive.connection.exec('DROP TRIGGER pull_is_not_changed');
  archive.connection.prepare("UPDATE pull SET source_words = 'another' WHERE pull_id = ?").run(pullId);
  const steps = checkInSteps(archive.connection, { reparse });
  let step = steps.next();
  for (; step.done !== true; step = steps.next()) archive.saveSpecimen({ specimen: SPECIMEN });
  expect(step.value.sound).toBe(false);
  expect(step.value.lines.filter(({ ok }) => !ok)).toMatchObject([
    { name: 'statements', words: `pull ${String(pullId)} is not what it was when it was kept` },
  ]);
});

it('lists all faults of pulls, however many sound ones come before, and counts what it does not list', () => {
  const lines = new CheckLines();
  lines.add('file', true, 'sound');
  for (let i = 0; i < CHECK_SOUND_LINES_MAX + 5; i++) lines.addOfPull(`pull ${String(i)}`, true, 'as closed');
  lines.addOfPull('the last pull', false, 'damaged');
  const { sound, lines: listed } = lines.result();
  expect(sound).toBe(false);
  expect(listed.length).toBe(1 + CHECK_SOUND_LINES_MAX + 1 + 1);
  expect(listed.filter(({ ok }) => !ok).map(({ name }) => name)).toEqual(['the last pull']);
  expect(listed.at(-1)).toMatchObject({ ok: true, words: expect.stringMatching(/^5 more/) as string });
  const many = new CheckLines();
  for (let i = 0; i < CHECK_FAULT_LINES_MAX + 2; i++) many.addOfPull(`pull ${String(i)}`, false, 'damaged');
  expect(many.result().lines.at(-1)).toMatchObject({
    ok: false,
    words: expect.stringMatching(/^2 more/) as string,
  });
});
