/** What other sizes change: old and new results of each pull that rests on the specimen, before they are kept. */
import type { SpecimenFile } from '../../../core/specimen/specimen-file.ts';
import { Button } from '../../design/button.tsx';
import { FaultBlock } from '../../design/field.tsx';
import { words } from '../../words/words.ts';
import { ValueComparison } from '../evaluation/value-comparison.tsx';
import type { CorrectedPull, Correction } from './correction.ts';
import '../evaluation/evaluation.css';
import './specimen-station.css';

export interface CorrectedPullsProps {
  /** Of the button that works it out. */
  readonly id: string;
  readonly correction: Correction;
  readonly specimen: SpecimenFile;
  readonly onShow: () => void;
}

export function CorrectedPulls({ id, correction, specimen, onShow }: CorrectedPullsProps) {
  const text = words.value.specimen;
  const { work, pulls } = correction;
  return (
    <>
      {(pulls.value?.length ?? 0) === 0 ? null : (
        <>
          <p class="pencil">{text.correctionRests}</p>
          <div class="actions">
            <Button id={id} onPress={onShow}>
              {words.value.evaluation.workOut}
            </Button>
            {work.busy.value ? <span class="pencil">{words.value.evaluation.workingOut}</span> : null}
          </div>
          {correction.shown(specimen)?.map((one) => (
            <OnePull key={one.pullId} one={one} />
          ))}
        </>
      )}
      <FaultBlock fault={work.fault.value} />
    </>
  );
}

function OnePull({ one }: { readonly one: CorrectedPull }) {
  const text = words.value.specimen;
  const pull = String(one.pullId);
  return (
    <section class="corrected-pull" data-corrected-pull={one.pullId}>
      <h2>
        {one.standing === null
          ? text.pullAsRecorded(pull)
          : text.pullEvaluatedAnew(pull, String(one.standing))}
      </h2>
      <ValueComparison before={one.before} after={one.after} />
    </section>
  );
}
