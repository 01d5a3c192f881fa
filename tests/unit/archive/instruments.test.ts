/** The register of instruments in the archive, and what is kept of it with a pull. */
import { join } from 'node:path';
import { describe, expect, it } from 'vitest';
import type { Archive } from '../../../core/archive/archive.ts';
import {
  chosenInstruments,
  instrumentHistory,
  listInstruments,
} from '../../../core/archive/instrument-store.ts';
import { instrumentsBeforeStart } from '../../../core/instruments/pull-instruments.ts';
import { CALIBRATION, CHANNEL, TODAY, calibrate, enter } from './entered-instruments.ts';
import { PROFILE, SPECIMEN, newPull, openArchive, scratchFolder } from './made-archive.ts';

const archiveHere = (): Archive => openArchive(join(scratchFolder(), 'a.gaugemark'));
const list = (archive: Archive, on = TODAY) => archive.sets((connection) => listInstruments(connection, on));

describe('the register', () => {
  it('is corrected with a reason, never changed; a name belongs to one instrument in use', () => {
    const archive = archiveHere();
    const id = enter(archive);
    expect(() => enter(archive, { form: { ...CHANNEL, name: ' lc-20 ' } })).toThrow(/another force channel/);
    const [first] = list(archive);
    if (first === undefined) throw new Error('the instrument is listed');
    expect(() => enter(archive, { supersedes: first.statementId })).toThrow(/needs its reason/);
    const said = { supersedes: first.statementId, reason: 'read from its plate', by: 'OP2' };
    expect(enter(archive, { ...said, form: { ...CHANNEL, serialNumber: '4712' } })).toBe(id);
    expect(() => enter(archive, said)).toThrow(/corrected meanwhile/);
    expect(list(archive)).toMatchObject([{ instrumentId: id, form: { serialNumber: '4712' }, by: 'OP2' }]);
    const second = list(archive)[0]?.statementId ?? 0;
    expect(() =>
      enter(archive, { supersedes: second, reason: 'x', form: { kind: 'frame', name: 'LC-20' } }),
    ).toThrow(/stays one/);
    enter(archive, { supersedes: second, reason: 'broken', retired: true });
    enter(archive);
    expect(list(archive).map(({ retired }) => retired)).toEqual([true, false]);
    for (const table of ['instrument', 'instrument_statement'])
      expect(() => archive.connection.prepare(`DELETE FROM ${table}`).run()).toThrow(/never deleted/);
    expect(archive.check({}).sound).toBe(true);
  });

  it('takes no calibration of tomorrow, none twice, and corrects one with the reason', () => {
    const archive = archiveHere();
    const id = enter(archive);
    const first = calibrate(archive, id);
    expect(() => calibrate(archive, id)).toThrow(/K-17 is entered already/);
    const later = { ...CALIBRATION, certificateNumber: 'K-18', calibratedOn: '2026-03-05' };
    expect(() => calibrate(archive, id, { form: later })).toThrow(/after today/);
    const wrong = { ...CALIBRATION, certificateNumber: 'K-19', verifiedRange: { from: '0', to: '5 mm' } };
    expect(() => calibrate(archive, id, { form: wrong })).toThrow(/a force is needed/);
    const due = { ...CALIBRATION, dueOn: '2026-03-01' };
    expect(() => calibrate(archive, id, { form: due, supersedes: first })).toThrow(/needs its reason/);
    calibrate(archive, id, { form: due, supersedes: first, reason: 'due date misread' });
    expect(list(archive)).toMatchObject([
      { state: 'overdue', daysLeft: -3, calibration: { form: { dueOn: '2026-03-01' } } },
    ]);
    const { calibrations } = archive.sets((connection) => instrumentHistory(connection, id, TODAY));
    expect(calibrations.map(({ form, supersededBy }) => [form.dueOn, supersededBy])).toEqual([
      ['2027-01-31', 2],
      ['2026-03-01', null],
    ]);
    expect(() => archive.connection.prepare("UPDATE calibration SET due_on = '2099-01-01'").run()).toThrow(
      /never changed/,
    );
    expect(archive.check({}).sound).toBe(true);
  });
});

describe('a pull', () => {
  const begun = (archive: Archive, ids: readonly number[], on = TODAY) => {
    const specimenId = archive.saveSpecimen({ specimen: SPECIMEN });
    const chosen = archive.sets((connection) => chosenInstruments(connection, ids));
    const source = { kind: 'serial', path: '/dev/ttyTEST' } as const;
    const before = instrumentsBeforeStart({ chosen, on, source, profile: PROFILE });
    return archive.beginPull(newPull(specimenId, { instruments: { ...before, confirmed: 'person' } }));
  };

  it('keeps certificate and state of its start, whatever is entered later', () => {
    const archive = archiveHere();
    const id = enter(archive);
    calibrate(archive, id);
    const pullId = begun(archive, [id], '2027-02-01');
    const kept = archive.getPull(pullId).instruments;
    expect(kept).toMatchObject({
      used: [{ name: 'LC-20', certificateNumber: 'K-17', dueOn: '2027-01-31', state: 'overdue' }],
      concerns: [{ code: 'calibration-overdue', instrumentId: id }],
      confirmed: 'person',
    });
    calibrate(archive, id, {
      form: { ...CALIBRATION, dueOn: '2028-01-31' },
      supersedes: 1,
      reason: 'extended',
    });
    expect(archive.getPull(pullId).instruments).toEqual(kept);
    const { pulls, pullCount } = archive.sets((connection) => instrumentHistory(connection, id, TODAY));
    expect({ pulls, pullCount }).toEqual({ pulls: [{ pullId, state: 'overdue' }], pullCount: 1 });
    expect(archive.check({}).sound).toBe(true);
  });

  it('takes neither an unknown nor a retired instrument', () => {
    const archive = archiveHere();
    const id = enter(archive);
    enter(archive, { supersedes: 1, reason: 'broken', retired: true });
    expect(() => begun(archive, [id])).toThrow(/is retired/);
    expect(() => begun(archive, [77])).toThrow(/no instrument 77/);
  });

  it('shows in the check when what was kept of its instruments was changed by other means', () => {
    const archive = archiveHere();
    const id = enter(archive);
    calibrate(archive, id);
    begun(archive, [id]);
    archive.connection.exec('DROP TRIGGER pull_instruments_is_not_changed');
    archive.connection.exec(
      "UPDATE pull_instruments SET instruments_json = replace(instruments_json, '2027', '2029')",
    );
    expect(
      archive
        .check({})
        .lines.map(({ words }) => words)
        .join(),
    ).toContain('pull_instruments 1');
  });
});
