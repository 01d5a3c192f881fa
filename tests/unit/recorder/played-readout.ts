/** A readout that is watched, whose far end is played by the test. */
import { type ReadoutProfile, readoutProfile } from '../../../core/contract/readout-profile.ts';
import type { InstrumentIndex } from '../../../core/contract/second-readout.ts';
import type { TransportListener } from '../../../drivers/transport.ts';
import { LiveReadout } from '../../../electron/recorder/live-readout.ts';
import type { NoticeBoard } from '../../../electron/recorder/notice-board.ts';
import type { Recording } from '../../../electron/recorder/recording.ts';

/** One load a line, in newtons. */
export const loadProfile = (more: object = {}): ReadoutProfile =>
  readoutProfile.parse({
    schema: 'gaugemark.readout-profile/1',
    name: 'slow',
    format: { kind: 'delimited', delimiter: ',', fields: ['load'] },
    channels: [{ field: 'load', quantity: 'force', unit: { kind: 'fixed', unit: 'N' } }],
    ...more,
  });

export interface PlayedReadout {
  readonly profile: ReadoutProfile;
  readonly notices: NoticeBoard;
  readonly instrument?: InstrumentIndex;
  readonly record?: Recording | null;
}

/** Opened; `far` is what the transport would tell. */
export async function playedReadout({ profile, notices, instrument = 0, record = null }: PlayedReadout) {
  const opened: TransportListener[] = [];
  const live = new LiveReadout({
    source: { kind: 'serial', path: '/dev/ttyUSB0' },
    profile,
    instrument,
    channels: profile.channels,
    zeros: new Map(),
    make: () => ({
      kind: 'serial',
      place: '/dev/ttyUSB0',
      open: (listener) => {
        opened.push(listener);
        return Promise.resolve();
      },
      write: () => Promise.resolve(),
      close: () => Promise.resolve(),
    }),
    notices,
    openRecord: () => record,
    onChunkComes: () => undefined,
    held: null,
    onChanged: () => undefined,
    onReadings: () => undefined,
  });
  await live.readout.open();
  const [far] = opened;
  if (far === undefined) throw new Error('nothing was opened');
  return { live, far };
}

export const nowUs = (): number => Number(process.hrtime.bigint() / 1000n);
