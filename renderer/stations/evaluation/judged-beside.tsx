/** What the rules that an evaluation was kept with say of its pull; its set goes on being judged by its own. */
import { useSignal } from '@preact/signals';
import { useEffect } from 'preact/hooks';
import type { KeptEvaluation, RuledVerdict } from '../../../core/contract/evaluation-requests.ts';
import { request } from '../../store/session-store.ts';
import { RuledSentence } from './verdict-comparison.tsx';

export function JudgedBeside({ standing: { pullId, evaluationId } }: { readonly standing: KeptEvaluation }) {
  const said = useSignal<RuledVerdict | null>(null);
  useEffect(() => {
    void request('evaluation.judge', { pullId }).then((answer) => {
      if (answer.ok) said.value = answer.value.before;
    });
  }, [evaluationId]);
  return said.value === null ? null : <RuledSentence said={said.value} />;
}
