/** Force channels entered into an archive for tests, with a certificate that stands on TODAY. */
import type { Archive } from '../../../core/archive/archive.ts';
import {
  type KeepCalibration,
  type SaveInstrument,
  keepCalibration,
  saveInstrument,
} from '../../../core/archive/instrument-store.ts';

export const TODAY = '2026-03-04';
export const CHANNEL = { kind: 'force-channel', name: 'LC-20', serialNumber: '4711' } as const;
export const CALIBRATION = {
  certificateNumber: 'K-17',
  calibratedOn: '2026-01-31',
  dueOn: '2027-01-31',
} as const;

/** Its number in the register. */
export const enter = (archive: Archive, over: Partial<SaveInstrument> = {}): number =>
  archive.sets((connection, { wallMs }) => saveInstrument(connection, { form: CHANNEL, ...over }, wallMs));

export const calibrate = (
  archive: Archive,
  instrumentId: number,
  over: Partial<KeepCalibration> = {},
): number =>
  archive.sets((connection, { wallMs }) =>
    keepCalibration(connection, { instrumentId, form: CALIBRATION, today: TODAY, ...over }, wallMs),
  );
