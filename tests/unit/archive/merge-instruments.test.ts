/** Pulls taken from another archive lead to the instruments that they were measured with, and bring a second one along. */
import { join } from 'node:path';
import { expect, it } from 'vitest';
import type { Archive } from '../../../core/archive/archive.ts';
import {
  chosenInstruments,
  instrumentHistory,
  listInstruments,
} from '../../../core/archive/instrument-store.ts';
import { mergeArchive } from '../../../core/archive/merge-archive.ts';
import { instrumentsBeforeStart } from '../../../core/instruments/pull-instruments.ts';
import { reparse } from '../../../electron/recorder/reparse.ts';
import { CALIBRATION, CHANNEL, TODAY, calibrate, enter } from './entered-instruments.ts';
import { END, PROFILE, SPECIMEN, batch, newPull, openArchive, scratchFolder } from './made-archive.ts';

function entered(archive: Archive, name: string, certificateNumber: string): number {
  const instrumentId = enter(archive, { form: { ...CHANNEL, name, range: { from: '0 kN', to: '200 kN' } } });
  calibrate(archive, instrumentId, { form: { ...CALIBRATION, certificateNumber } });
  return instrumentId;
}

function pulled(archive: Archive, instrumentId: number, text: string): number {
  const source = { kind: 'serial', path: '/dev/ttyTEST' } as const;
  const chosen = archive.sets((connection) => chosenInstruments(connection, [instrumentId]));
  const before = instrumentsBeforeStart({ chosen, on: TODAY, source, profile: PROFILE });
  const pullId = archive.beginPull(
    newPull(archive.saveSpecimen({ specimen: SPECIMEN }), {
      instruments: { ...before, confirmed: 'nothing-to-confirm' },
      second: {
        source: { kind: 'serial', path: '/dev/ttyTWO' },
        sourceWords: '/dev/ttyTWO',
        profile: PROFILE,
        ageMaxMs: 600,
      },
    }),
  );
  const chunk = { chunkSeq: 0, opening: 1, elapsedUs: 10, bytes: Buffer.from(text) };
  archive.closePull(batch(pullId, { chunks: [chunk] }), {
    ...END,
    skew: { joined: 0, alone: 0, meanMs: 0, longestMs: 0 },
  });
  return pullId;
}

const merged = (into: Archive, from: Archive): number[] =>
  [
    ...mergeArchive({ connection: into.connection, wallMs: 1 }, { connection: from.connection }, true),
  ].flatMap(({ pullIdHere, fate }) => (fate === 'taken' && pullIdHere !== null ? [pullIdHere] : []));

it('a pull leads to the same instrument of the register here, or brings its own with its calibrations', () => {
  const folder = scratchFolder();
  const [here, there] = [
    openArchive(join(folder, 'here.gaugemark')),
    openArchive(join(folder, 'there.gaugemark')),
  ];
  const known = entered(here, 'LC-20', 'K-17');
  // Other numbers there: the same load cell is second.
  const foreign = entered(there, 'LC-99', 'K-18');
  const same = entered(there, 'LC-20', 'K-17');
  const before = [pulled(there, same, 'a'), pulled(there, foreign, 'b')].map((id) => there.getPull(id));

  const [first = 0, second = 0] = merged(here, there);
  const register = here.sets((connection) => listInstruments(connection, TODAY));
  expect(register.map(({ form }) => form.name)).toEqual(['LC-20', 'LC-99']);
  const brought = register[1]?.instrumentId ?? 0;
  const pullsOf = (id: number): number[] =>
    here.sets((connection) => instrumentHistory(connection, id, TODAY)).pulls.map(({ pullId }) => pullId);
  expect([pullsOf(known), pullsOf(brought)]).toEqual([[first], [second]]);
  // One certificate is one, however often it is taken along.
  const calibrations = here.sets((connection) => instrumentHistory(connection, known, TODAY)).calibrations;
  expect(calibrations.map(({ form }) => form.certificateNumber)).toEqual(['K-17']);

  const kept = [first, second].map((id) => here.getPull(id));
  expect(kept.map(({ instruments }) => instruments?.used[0]?.instrumentId)).toEqual([known, brought]);
  const asTold = (pull: (typeof kept)[number] | undefined): unknown =>
    pull?.instruments?.used.map((used) => ({ ...used, instrumentId: 0, calibrationId: 0 }));
  expect(kept.map(asTold)).toEqual(before.map(asTold));
  expect(kept[0]?.second).toEqual(before[0]?.second);
  expect(here.check({ reparse }).lines.filter(({ ok }) => !ok)).toEqual([]);
  // Known again, not taken twice.
  expect(merged(here, there)).toEqual([]);
});
