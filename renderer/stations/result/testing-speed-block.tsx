/** How fast it was pulled: the rates of each stage, and each check against a standard's window. */
import {
  type SpeedCheck,
  type StageSpeed,
  type TestingSpeed,
  speedReason,
} from '../../../core/results/testing-speed.ts';
import { UNITS, convert } from '../../../core/quantity/units.ts';
import { displayUnit } from '../../numbers/display-unit.ts';
import { fixed, significant } from '../../numbers/format.ts';
import { language, units } from '../../store/view-settings.ts';
import { told } from '../../words/told.ts';
import { words } from '../../words/words.ts';
import { type Met, VerdictCounts, VerdictWord } from './verdict-word.tsx';
import { TableScroll } from '../../design/table-scroll.tsx';
import './checks-block.css';

const MET: Readonly<Record<SpeedCheck['verdict'], Met>> = {
  within: 'yes',
  outside: 'no',
  'not-known': 'unknown',
};
const RATE_DIGITS = 3;

export function TestingSpeedBlock({ speed }: { readonly speed: TestingSpeed }) {
  const text = words.value.result.speed;
  const shown = saidOnce(speed.checks);
  return (
    <details class="checks-block" data-block="speed">
      <summary>
        <h2>{text.title}</h2>
        <VerdictCounts verdicts={speed.checks.map((c) => c.verdict)} words={text.verdicts} met={MET} />
      </summary>
      {speed.measured.length === 0 ? (
        <p class="pencil">{text.noRate}</p>
      ) : (
        <MeasuredRates measured={speed.measured} />
      )}
      <h3>{text.checks}</h3>
      <ul class="checks">
        {shown.map((check) => (
          <li key={`${check.standard}${check.method}`}>
            <VerdictWord met={MET[check.verdict]} word={text.verdicts[check.verdict]} />
            <div>
              {shown.length < speed.checks.length ? null : (
                <p>
                  <strong>
                    {check.standard}, {told(check.method)}
                  </strong>
                </p>
              )}
              <p class="begins-sentence">{told(speedReason(check, units.value === 'US' ? 'us' : 'si'))}</p>
              {shown.length < speed.checks.length ? null : <p class="pencil small">{told(check.source)}</p>}
            </div>
          </li>
        ))}
      </ul>
    </details>
  );
}

/** A record in which nothing about speed can be told says why once. */
function saidOnce(checks: readonly SpeedCheck[]): readonly SpeedCheck[] {
  return new Set(checks.map((check) => check.sentence)).size === 1 ? checks.slice(0, 1) : checks;
}

function MeasuredRates({ measured }: { readonly measured: readonly StageSpeed[] }) {
  const text = words.value.result.speed;
  return (
    <>
      <h3>{text.measured}</h3>
      <TableScroll label={text.measured}>
        <table class="rates">
          <thead>
            <tr>
              <th scope="col">{text.stage}</th>
              <th scope="col">{text.quantity}</th>
              <th scope="col">{text.rate}</th>
              <th scope="col">{text.readings}</th>
              <th scope="col">{text.duration}</th>
            </tr>
          </thead>
          <tbody>
            {measured.map((one) => (
              <tr key={`${one.stage}${one.quantity}`}>
                <th scope="row">{text.stages[one.stage]}</th>
                <td class="word">{text.quantities[one.quantity]}</td>
                <td>{rateText(one)}</td>
                <td>{fixed(one.readings, 0, language.value)}</td>
                <td>{fixed(one.durationS, 1, language.value)} s</td>
              </tr>
            ))}
          </tbody>
        </table>
      </TableScroll>
    </>
  );
}

/** A stress rate in the unit of the chosen system; a strain rate is the same in both. */
function rateText({ rate, unit }: StageSpeed): string {
  if (unit === '1/s') return `${significant(rate, RATE_DIGITS, language.value)} 1/s`;
  const target = displayUnit(UNITS[unit].dimension, units.value);
  return `${significant(convert(rate, unit, target), RATE_DIGITS, language.value)} ${target}`;
}
