/** A unit key pressed on the readout in mid-pull stands in the record as a mark, and the peak is the largest load, not the largest number (N1). */
import { join } from 'node:path';
import { expect, it, onTestFinished } from 'vitest';
import type { ReplyOf, RequestInputOf, RequestName } from '../../../core/contract/index.ts';
import type { ReadoutProfileFile } from '../../../core/contract/readout-profile.ts';
import { type TransportListener, monotonicUs } from '../../../drivers/transport.ts';
import { Recorder } from '../../../electron/recorder/recorder.ts';
import { answerRequest } from '../../../electron/recorder/requests.ts';
import { SPECIMEN, scratchFolder } from '../archive/made-archive.ts';

const PROFILE: ReadoutProfileFile = {
  schema: 'gaugemark.readout-profile/1',
  name: 'with a unit key',
  format: { kind: 'delimited', delimiter: ';', fields: ['load'] },
  channels: [{ field: 'load', quantity: 'force', unit: { kind: 'in-line', expected: 'kN' } }],
};

it('is marked where it changes and where it changes back, and mixes no maxima, live or kept', async () => {
  const far: TransportListener[] = [];
  const recorder = new Recorder({
    archivePath: join(scratchFolder(), 'a.gaugemark'),
    programVersion: '9.9.9',
    makeFolder: false,
    resume: true,
    makeTransport: () => ({
      kind: 'serial',
      place: 'a frame',
      open: (to) => {
        far.push(to);
        return Promise.resolve();
      },
      write: () => Promise.resolve(),
      close: () => Promise.resolve(),
    }),
    log: () => undefined,
  });
  onTestFinished(() => recorder.end());
  await recorder.begin();
  const ask = async <N extends RequestName>(name: N, request: RequestInputOf<N>): Promise<ReplyOf<N>> => {
    const answer = await answerRequest(recorder, name, request);
    if (!answer.ok) throw new Error(answer.fault.sentence);
    return answer.value;
  };
  const { specimenId } = await ask('specimen.save', { specimen: SPECIMEN });
  const { pullId } = await ask('pull.ready', {
    specimenId,
    source: { kind: 'serial', path: '/dev/ttyTEST' },
    profile: PROFILE,
    trigger: { kind: 'by-hand' },
    breakRule: { kind: 'by-hand' },
    tailS: null,
  });
  // 360 lbf are 1601 N (NIST SP 811, appendix B): a large number, and less than 1.70 kN.
  const lines = ['x', '1.50 kN', '1.60 kN', '360 lbf', '361 lbf', '1.70 kN', '1.65 kN'];
  far[0]?.onChunk(Buffer.from(lines.map((line) => `${line}\r\n`).join('')), monotonicUs());
  expect((await ask('session.get', {})).pull?.peak?.forceN).toBe(1700);
  await ask('pull.close', {});
  const { marks } = await ask('pull.get', { pullId });
  expect(marks.filter(({ kind }) => kind === 'unit-changed').map(({ seq, words }) => [seq, words])).toEqual([
    [2, 'the readout changed its units: load in lbf'],
    [4, 'the readout changed its units: load in kN'],
  ]);
  expect((await ask('pull.list', { limit: 1 })).items[0]?.peakForceN).toBe(1700);
});
