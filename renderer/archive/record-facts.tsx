/** What stands on the record of a pull besides its readings, as it was kept. */
import type { KeptPull } from '../../core/contract/pull-requests.ts';
import { markWordsIn } from '../../core/pull/rule-words.ts';
import { UsedInstruments } from '../instruments/used-instruments.tsx';
import { skewWords } from '../numbers/skew-words.ts';
import { elapsedText, fixed, momentText } from '../numbers/format.ts';
import { language, units } from '../store/view-settings.ts';
import { misfitText } from '../stations/readout/line-table.tsx';
import { offeredScenario } from '../stations/readout/scenarios.ts';
import { told } from '../words/told.ts';
import { words } from '../words/words.ts';

export function RecordFacts({ kept }: { readonly kept: KeptPull }) {
  const text = words.value.archive;
  const at = (us: number) => elapsedText(us / 1e6, language.value);
  const misfits = Object.entries(kept.misfitCount).filter(([, n]) => n > 0);
  const zeros = Object.entries(kept.zeros);
  const { none } = words.value.common;
  return (
    <section class="block" aria-labelledby="record-title">
      <h2 id="record-title">{text.record}</h2>
      <dl class="facts">
        <dt>{text.source}</dt>
        <dd>{sourceWords(kept)}</dd>
        {kept.typed === null ? null : <dd>{words.value.typed.values(kept.typed.load)}</dd>}
        <dt>{text.profile}</dt>
        <dd>{told(kept.profile.name)}</dd>
        <UsedInstruments its={kept.instruments} />
        {/* A file was recorded in the moment of its import; its own time stands in its readings. */}
        {kept.readings?.startsWith('imported') === true ? null : (
          <>
            <dt>{text.duration}</dt>
            <dd class="number">{at(kept.durationUs)}</dd>
          </>
        )}
        <dt>{text.rawBytes}</dt>
        <dd class="number">{fixed(kept.rawByteCount, 0, language.value)}</dd>
        <dt>{text.misfits}</dt>
        <dd>
          {misfits.length === 0
            ? none
            : misfits.map(([reason, n]) => `${misfitText(reason)}: ${String(n)}`).join(', ')}
        </dd>
        <dt>{text.zeros}</dt>
        <dd>
          {zeros.length === 0 ? none : zeros.map(([key, value]) => `${key}: ${String(value)}`).join(', ')}
        </dd>
        <dt>{text.program}</dt>
        <dd>{kept.programVersion}</dd>
      </dl>
      {kept.second === null ? null : (
        <p>
          {words.value.learn.secondIs(told(kept.second.sourceWords), told(kept.second.profile.name))}
          {kept.second.closed === null ? '' : ` · ${skewWords(kept.second.closed.skew)}`}
        </p>
      )}
      <h3>{text.marks}</h3>
      <ul>
        {kept.marks.map((mark) => (
          <li key={`${mark.kind}${String(mark.elapsedUs)}`}>
            <span class="number">{at(mark.elapsedUs)}</span>{' '}
            {told(markWordsIn(mark, kept, units.value === 'US' ? 'us' : 'si'))}
          </li>
        ))}
      </ul>
      <h3>{text.gapsTitle}</h3>
      {kept.gaps.length === 0 ? (
        <p>{text.noGaps}</p>
      ) : (
        <ul>
          {kept.gaps.map((gap) => (
            <li key={gap.gapId}>
              <span class="number">{at(gap.fromElapsedUs)}</span> {told(gap.words)}
            </li>
          ))}
        </ul>
      )}
      {kept.acts.length === 0 ? null : (
        <>
          <h3>{text.acts}</h3>
          <ul>
            {kept.acts.map((act, i) => (
              <li key={i}>
                <span class="number">{momentText(act.wallMs)}</span> {told(act.words)}
                {act.by === null ? '' : ` (${act.by})`}
              </li>
            ))}
          </ul>
        </>
      )}
    </section>
  );
}

function sourceWords({ source }: KeptPull): string {
  switch (source.kind) {
    case 'simulated':
      return `${words.value.readout.simulated}: ${told(offeredScenario(source.scenario)?.title ?? source.scenario)}`;
    case 'typed':
      return words.value.typed.source;
    case 'serial':
    case 'modbus-rtu':
      return source.path;
    case 'replay':
    case 'imported':
      return source.file;
    case 'tcp':
    case 'modbus-tcp':
      return `${source.host}:${String(source.port)}`;
  }
}
