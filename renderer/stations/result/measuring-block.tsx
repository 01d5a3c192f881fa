/** How well the specimen was measured: whether the instrument was fine enough, and how the sections differ. */
import type { Evaluation } from '../../../core/results/evaluation.ts';
import type { AreaFacts } from '../../../core/results/area.ts';
import type { ResolutionCheck } from '../../../core/results/instrument-resolution.ts';
import { quantityText } from '../../numbers/format.ts';
import { prose } from '../../numbers/prose.ts';
import { language, units } from '../../store/view-settings.ts';
import { told } from '../../words/told.ts';
import { words } from '../../words/words.ts';
import { type Met, VerdictCounts, VerdictWord } from './verdict-word.tsx';
import './checks-block.css';

const MET: Readonly<Record<ResolutionCheck['verdict'], Met>> = {
  'fine-enough': 'yes',
  'too-coarse': 'no',
  'not-known': 'unknown',
};

/** Folded while nothing speaks against the measuring: a warning has to be seen without being looked for. */
export function MeasuringBlock({ evaluation }: { readonly evaluation: Evaluation }) {
  const text = words.value.result.measuring;
  const { resolution = [], section } = evaluation;
  const spread = section?.spread;
  if (resolution.length === 0 && spread === undefined) return null;
  return (
    <details
      class="checks-block"
      data-block="measuring"
      open={resolution.some((check) => check.verdict !== 'fine-enough')}
    >
      <summary>
        <h2>{text.title}</h2>
        <VerdictCounts verdicts={resolution.map((c) => c.verdict)} words={text.verdicts} met={MET} />
      </summary>
      {spread === undefined ? null : <p>{spreadText(spread)}</p>}
      <ul class="checks">
        {worstFirst(resolution).map((check) => (
          <li key={`${check.standard}${check.dimension}`}>
            <VerdictWord met={MET[check.verdict]} word={text.verdicts[check.verdict]} />
            <div>
              <p>{prose(check.sentence)}</p>
              <p class="pencil small">{told(check.source)}</p>
            </div>
          </li>
        ))}
      </ul>
    </details>
  );
}

const ORDER: readonly ResolutionCheck['verdict'][] = ['too-coarse', 'not-known', 'fine-enough'];

function worstFirst(checks: readonly ResolutionCheck[]): ResolutionCheck[] {
  return [...checks].sort((a, b) => ORDER.indexOf(a.verdict) - ORDER.indexOf(b.verdict));
}

function spreadText(spread: NonNullable<AreaFacts['spread']>): string {
  const area = (mm2: number): string => quantityText(mm2, 'mm²', units.value, language.value);
  return words.value.result.measuring.spread(
    String(spread.count),
    area(spread.minMm2),
    area(spread.maxMm2),
    area(spread.standardDeviationMm2),
  );
}
