/** With what a kept pull was measured, as it stood at its start. */
import type { PullInstruments } from '../../core/instruments/pull-instruments.ts';
import { words } from '../words/words.ts';
import { CalibrationWord } from './calibration-word.tsx';
import { concernWords } from './concern-words.ts';

/** Terms of a list of facts; nothing for pulls from before that was kept. */
export function UsedInstruments({ its }: { readonly its: PullInstruments | null }) {
  const text = words.value.instruments;
  if (its === null) return null;
  const others = its.concerns.filter(({ instrumentId }) => instrumentId === null);
  return (
    <>
      {its.used.map((one) => (
        <>
          <dt>{text.kinds[one.kind]}</dt>
          <dd>
            <bdi>{one.serialNumber === null ? one.name : `${one.name}, ${one.serialNumber}`}</bdi>{' '}
            <CalibrationWord state={one.state} daysLeft={null} />
            {one.certificateNumber === null ? null : (
              <span class="pencil small">
                {' '}
                {text.certificate} <bdi>{one.certificateNumber}</bdi>, {text.due} {one.dueOn}
              </span>
            )}
          </dd>
        </>
      ))}
      {others.length === 0 ? null : (
        <>
          <dt>{text.chosen.title}</dt>
          {others.map((one) => (
            <dd key={one.code}>
              <span aria-hidden="true">▲</span> {concernWords(one, its.used, words.value)}
            </dd>
          ))}
        </>
      )}
    </>
  );
}
