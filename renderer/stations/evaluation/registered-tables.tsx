/** Correction tables of the register of instruments, as a choice beside the one of opening a file. */
import type { OptionSource } from '../../../core/contract/evaluation-requests.ts';
import { correctionPoints } from '../../../core/instruments/calibration.ts';
import { MEASURES } from '../../../core/instruments/instrument.ts';
import type { Corrections } from '../../../core/results/evaluation.ts';
import { register } from '../../instruments/register.ts';
import { words } from '../../words/words.ts';
import { SOURCE_OF, sha256Of } from './table-file.ts';

export type RegisteredEntry = 'forceTable' | 'extensionTable';

const DIMENSION = { forceTable: 'force', extensionTable: 'length' } as const;

/** Those whose calibration that counts today has a table; a calliper measures no extension. */
function withTable(entry: RegisteredEntry) {
  return register.value.flatMap(({ instrumentId, form, calibration }) => {
    const correction = calibration?.form.correction;
    return correction === undefined || form.kind === 'calliper' || MEASURES[form.kind] !== DIMENSION[entry]
      ? []
      : [
          {
            instrumentId,
            name: form.name,
            certificate: calibration?.form.certificateNumber ?? '',
            correction,
          },
        ];
  });
}

/** Null where there is no such table any more. */
export async function tableOfInstrument(
  entry: RegisteredEntry,
  instrumentId: number,
): Promise<{ readonly table: Pick<Corrections, RegisteredEntry>; readonly source: OptionSource } | null> {
  const found = withTable(entry).find((one) => one.instrumentId === instrumentId);
  if (found === undefined) return null;
  return {
    table: { [entry]: correctionPoints(found.correction) },
    source: {
      what: SOURCE_OF[entry],
      name: `${found.name}, ${found.certificate}`.slice(0, 300),
      sha256: await sha256Of(JSON.stringify(found.correction)),
    },
  };
}

export function RegisteredTables({
  entry,
  onTake,
}: {
  readonly entry: RegisteredEntry;
  readonly onTake: (instrumentId: number) => void;
}) {
  const text = words.value;
  const offered = withTable(entry);
  if (offered.length === 0) return null;
  return (
    <select
      class="entry registered-table"
      aria-label={`${text.evaluation.tables[entry]}: ${text.instruments.fromRegister}`}
      value=""
      onChange={({ currentTarget }) => {
        if (currentTarget.value !== '') onTake(Number(currentTarget.value));
        // It is a way to take one, not what is taken: that stands beside it.
        currentTarget.value = '';
      }}
    >
      <option value="">{text.instruments.fromRegister}…</option>
      {offered.map(({ instrumentId, name, certificate }) => (
        <option key={instrumentId} value={String(instrumentId)}>
          {name}, {certificate}
        </option>
      ))}
    </select>
  );
}
