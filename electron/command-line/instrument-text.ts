/** The register of instruments as text. */
import type { ReplyOf } from '../../core/contract/index.ts';
import type { InstrumentLine, KeptCalibration } from '../../core/contract/instrument-requests.ts';
import { holdsWorksheet } from '../../core/instruments/calibration.ts';
import { KIND_WORDS } from '../../core/instruments/instrument.ts';

export function registerText(instruments: readonly InstrumentLine[]): string {
  if (instruments.length === 0)
    return 'No instrument is entered here yet; "gaugemark help instruments" shows how one is.';
  const names = instruments.map(
    ({ form }) => `${form.name}${form.serialNumber === undefined ? '' : `, no. ${form.serialNumber}`}`,
  );
  const width = Math.max(...names.map((name) => name.length));
  return instruments
    .map(
      (one, place) =>
        `${String(one.instrumentId).padStart(4)}  ${KIND_WORDS[one.form.kind].padEnd(13)}  ${(names[place] ?? '').padEnd(width)}  ${stateText(one)}${one.retired ? '; retired' : ''}`,
    )
    .join('\n');
}

export function stateText({ calibration, state, daysLeft }: InstrumentLine): string {
  if (calibration === null || daysLeft === null) return 'NO CALIBRATION on record';
  const { certificateNumber, dueOn } = calibration.form;
  return state === 'overdue'
    ? `OVERDUE since ${dueOn} (certificate ${certificateNumber})`
    : `due ${dueOn}, in ${String(daysLeft)} days (certificate ${certificateNumber})`;
}

export function historyText({
  instrument,
  calibrations,
  pulls,
  pullCount,
}: ReplyOf<'instrument.get'>): string {
  const { form } = instrument;
  const facts: readonly (readonly [string, string | undefined])[] = [
    ['serial number', form.serialNumber],
    ['description', form.description],
    ['range', form.range === undefined ? undefined : `${form.range.from} to ${form.range.to}`],
    ['resolution', form.resolution],
    ['class', form.class],
    ['notes', form.notes],
  ];
  return [
    `${KIND_WORDS[form.kind]} ${form.name}${instrument.retired ? ' (retired)' : ''}: ${stateText(instrument)}`,
    ...facts.flatMap(([label, value]) => (value === undefined ? [] : [`  ${label}: ${value}`])),
    '',
    calibrations.length === 0 ? 'No calibration was ever entered.' : 'Calibrations:',
    ...calibrations.map(calibrationText),
    '',
    pullCount === 0
      ? 'No pull names it.'
      : `${String(pullCount)} ${pullCount === 1 ? 'pull names' : 'pulls name'} it, newest first: ${pulls.map(({ pullId, state }) => `${String(pullId)} (${state === 'none' ? 'no calibration' : state})`).join(', ')}${pulls.length < pullCount ? ', …' : ''}`,
  ].join('\n');
}

function calibrationText({ calibrationId, form, supersededBy, reason }: KeptCalibration): string {
  const parts = [
    `certificate ${form.certificateNumber} of ${form.calibratedOn}, due ${form.dueOn}`,
    ...(form.by === undefined ? [] : [`by ${form.by}`]),
    ...(form.class === undefined ? [] : [form.class]),
    ...(form.verifiedRange === undefined
      ? []
      : [`verified from ${form.verifiedRange.from} to ${form.verifiedRange.to}`]),
    ...(form.correction === undefined
      ? []
      : [`correction table of ${String(form.correction.points.length)} points`]),
    ...(holdsWorksheet(form) ? ['worksheet kept'] : []),
    ...(reason === null ? [] : [`entered anew: ${reason}`]),
    ...(supersededBy === null ? [] : [`superseded by ${String(supersededBy)}`]),
  ];
  return `${String(calibrationId).padStart(4)}  ${parts.join('; ')}`;
}
