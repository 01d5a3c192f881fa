/** Of a pull that is here already a merge adds what was said of it there since; what both say otherwise stays, and is told. */
import { join } from 'node:path';
import { readFileSync } from 'node:fs';
import { expect, it } from 'vitest';
import { builtInPacks } from '../../../core/acceptance/packs.ts';
import type { Archive } from '../../../core/archive/archive.ts';
import { checkChain } from '../../../core/archive/audit.ts';
import { evaluationHistory, keepEvaluation } from '../../../core/archive/evaluation-store.ts';
import { joinSet, overrideMember } from '../../../core/archive/member-store.ts';
import { mergeArchive } from '../../../core/archive/merge-archive.ts';
import { addPhoto } from '../../../core/archive/photo-store.ts';
import { saveSet } from '../../../core/archive/set-store.ts';
import { voidPull } from '../../../core/archive/void-store.ts';
import { SPECIMEN, WALL_MS, keptPull, openArchive, scratchFolder } from './made-archive.ts';

const SAME = 'the same pull of the same archive';
const LEFT = 'said otherwise in both and left as it is here';

function twoArchives(): { there: Archive; here: Archive; lines: (write?: boolean) => string[][] } {
  const folder = scratchFolder();
  const there = openArchive(join(folder, 'there.gaugemark'));
  keptPull(there);
  const here = openArchive(join(folder, 'here.gaugemark'));
  return {
    there,
    here,
    lines: (write = true) =>
      [...mergeArchive({ ...ends(here), wallMs: 1 }, ends(there), write)].map(({ fate, words }) => [
        fate,
        words,
      ]),
  };
}

it('adds what was said there since, once, and the audit chain says so', () => {
  const { there, here, lines } = twoArchives();
  expect(lines()).toEqual([['taken', '']]);
  expect(lines()).toEqual([['here-already', SAME]]);
  noted(there, 'weld-metal');
  noted(there, 'base-metal', 'looked again');
  evaluated(there, null, 'grip not zeroed');
  photographed(there);
  voided(there, 'the grips slipped');
  const words = 'fractures 2, evaluations 1, photos 1, voidings 1';
  expect(lines(false)).toEqual([['added-to', `${SAME}; would be added: ${words}`]]);
  expect(lines()).toEqual([['added-to', `${SAME}; added: ${words}`]]);
  expect(here.getPull(1)).toMatchObject({
    fractureNotes: [
      { note: { place: 'weld-metal' } },
      { note: { place: 'base-metal' }, reason: 'looked again' },
    ],
    voided: { reason: 'the grips slipped' },
  });
  expect(here.check({}).lines.filter(({ ok }) => !ok)).toEqual([]);
  const before = entries(here);
  expect(lines()).toEqual([['here-already', SAME]]);
  expect(entries(here)).toBe(before);

  // What stands here goes on from what was added.
  const [standing] = historyOf(here);
  evaluated(here, standing?.evaluationId ?? 0, 'it was zeroed after all');
  expect(lines()).toEqual([['here-already', SAME]]);
});

it('takes two pulls of one archive as two, though their raw bytes are the same: a recording played twice', () => {
  const { there, here, lines } = twoArchives();
  keptPull(there);
  expect(lines()).toEqual([
    ['taken', ''],
    ['taken', ''],
  ]);
  expect(lines()).toEqual([
    ['here-already', SAME],
    ['here-already', SAME],
  ]);
  expect(here.info().pullCount).toBe(2);
});

it('leaves what both say otherwise as it is here, and adds the rest', () => {
  const { there, here, lines } = twoArchives();
  lines();
  voided(there, 'the grips slipped');
  voided(here, 'the wrong specimen');
  noted(there, 'weld-metal');
  noted(here, 'base-metal');
  evaluated(there, null, 'grip not zeroed');
  expect(lines()).toEqual([
    [
      'conflict',
      `${SAME}; added: evaluations 1; ${LEFT}: fractures, voidings; look at both and say which counts`,
    ],
  ]);
  expect(here.getPull(1)).toMatchObject({
    fractureNotes: [{ note: { place: 'base-metal' } }],
    voided: { reason: 'the wrong specimen' },
  });
  expect(lines()).toEqual([
    ['conflict', `${SAME}; ${LEFT}: fractures, voidings; look at both and say which counts`],
  ]);
});

it('takes no pull whose specimen was corrected otherwise in both, and changes nothing', () => {
  const { there, here, lines } = twoArchives();
  lines();
  const corrected = (archive: Archive, gaugeLength: string): number =>
    archive.saveSpecimen({ specimen: { ...SPECIMEN, gaugeLength }, supersedes: 1, reason: 'read wrong' });
  keptPull(there, 4, 20, corrected(there, '51 mm'));
  corrected(here, '52 mm');
  const before = entries(here);
  expect(lines()).toEqual([
    ['conflict', `${SAME}; ${LEFT}: corrected dimensions; look at both and say which counts`],
    ['conflict', expect.stringMatching(/corrected dimensions of its specimen differ/)],
  ]);
  expect(entries(here)).toBe(before);
});

it('adds corrected dimensions and what was decided in sets', () => {
  const { there, here, lines } = twoArchives();
  // Numbers there and here differ for what is the same.
  const { setId, setMemberId } = there.sets((connection, keeping) => {
    const set = saveSet(connection, { form: FORM }, { ...keeping, packs: builtInPacks() });
    const member = joinSet(connection, { setId: set, specimenId: 1 }, WALL_MS);
    return { setId: set, setMemberId: member };
  });
  here.saveSpecimen({ specimen: { ...SPECIMEN, id: 'another' } });
  expect(lines()).toEqual([['taken', '']]);
  expect(lines()).toEqual([['here-already', SAME]]);
  const specimenId = there.saveSpecimen({
    specimen: { ...SPECIMEN, gaugeLength: '51 mm' },
    supersedes: 1,
    reason: 'the gauge length was read wrong',
  });
  evaluated(there, null, 'by the right length', specimenId);
  there.sets((connection, keeping) => {
    overrideMember(
      connection,
      { setMemberId, to: 'reject', person: 'B', reason: 'slag', utcOffsetMinutes: 0 },
      WALL_MS,
    );
    saveSet(
      connection,
      { form: { ...FORM, position: 'PA' }, setId, reason: 'the position was missing' },
      { ...keeping, packs: builtInPacks() },
    );
  });
  expect(lines()).toEqual([
    [
      'added-to',
      `${SAME}; added: corrected dimensions 1, evaluations 1, statements of its sets 1, verdicts overruled 1`,
    ],
  ]);
  expect(here.newestSpecimenOfPull(1).specimen.gaugeLength).toBe('51 mm');
  const [added] = historyOf(here);
  expect(added?.specimenId).toBe(here.newestSpecimenOfPull(1).specimenId);
  expect(here.check({}).lines.filter(({ ok }) => !ok)).toEqual([]);
  expect(lines()).toEqual([['here-already', SAME]]);
});

const FORM = {
  name: 'Bridge post 12',
  purpose: 'procedure-qualification',
  rulePackId: 'iso-15614-1',
  baseMetals: [{ designation: 'S355' }],
  specimenType: 'transverse-flat',
};

function noted(archive: Archive, place: 'weld-metal' | 'base-metal', reason?: string): void {
  const supersedes = archive.getPull(1).fractureNotes.at(-1)?.fractureNoteId;
  archive.noteFracture({
    pullId: 1,
    note: { place },
    ...(reason === undefined ? {} : { supersedes, reason }),
  });
}

const evaluated = (archive: Archive, supersedes: number | null, reason: string, specimenId = 1): number =>
  archive.sets((connection, keeping) =>
    keepEvaluation(
      connection,
      {
        ...{ pullId: 1, specimenId, supersedes, reason, sources: [], methodVersion: '1' },
        options: { corrections: { forceZeroN: 40 } },
        values: [{ symbol: 'Rm', value: 412.5, unit: 'MPa' }],
      },
      keeping,
    ),
  );

const photographed = (archive: Archive): unknown =>
  archive.sets((connection, { wallMs }) =>
    addPhoto(
      connection,
      { pullId: 1, bytes: new Uint8Array(readFileSync(PHOTO)), fileName: 'halves.jpg' },
      wallMs,
    ),
  );
const PHOTO = new URL('../../../fixtures/photos/grey-ramp.jpg', import.meta.url);

const historyOf = (archive: Archive) => archive.sets((connection) => evaluationHistory(connection, 1));
const entries = (archive: Archive): number => checkChain(archive.connection).length;

const voided = (archive: Archive, reason: string): unknown =>
  archive.sets((connection, { wallMs }) =>
    voidPull(connection, { pullId: 1, reason, by: 'B', utcOffsetMinutes: 0 }, wallMs),
  );

const ends = (archive: Archive) => ({ connection: archive.connection });
