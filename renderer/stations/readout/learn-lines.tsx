/** Learning a readout's lines: from the chosen port with its progress, or from recorded bytes. */
import { type Source, learnableSource } from '../../../core/contract/source.ts';
import { Button } from '../../design/button.tsx';
import { FaultBlock } from '../../design/field.tsx';
import { useWorkSaid } from '../../design/told-in-parts.ts';
import { chosenFile } from '../../exchange/chosen-file.ts';
import { fixed } from '../../numbers/format.ts';
import { learning, recording, request } from '../../store/session-store.ts';
import { language } from '../../store/view-settings.ts';
import { words } from '../../words/words.ts';
import { beginLearning, beginning } from './begin-learning.ts';
import type { ControlLines } from './control-lines.tsx';

export interface LearnLinesProps {
  readonly chosen: Source;
  readonly controlLines: ControlLines;
}

export function LearnLines({ chosen, controlLines }: LearnLinesProps) {
  const text = words.value.learn;
  const state = learning.value;
  const talking = learnableSource.safeParse(chosen).data;
  const learn = async (): Promise<void> => {
    if (talking !== undefined) await beginLearning(talking, controlLines);
  };
  const fromBytes = async (): Promise<void> => {
    const file = await chosenFile(beginning, 'bytes');
    if (file === null) return;
    const outcome = await beginning.run(() => request('readout.learn-file', { file: file.sign }));
    if (outcome !== null) learning.value = outcome;
  };
  if (state?.state === 'listening') return <Listening />;
  const notNow = recording.value ? text.inPull : undefined;
  return (
    <div class="learn">
      <div class="actions">
        <Button
          kind="compact"
          id="learn-lines"
          notNow={notNow ?? (talking === undefined ? text.needsPort : undefined)}
          onPress={() => void learn()}
        >
          {text.learn}
        </Button>
        <Button kind="compact" id="learn-bytes" notNow={notNow} onPress={() => void fromBytes()}>
          {text.fromBytes}
        </Button>
      </div>
      <p class="pencil small">{text.learnHint}</p>
      <FaultBlock fault={beginning.fault.value ?? (state?.state === 'failed' ? state.fault : null)} />
    </div>
  );
}

function Listening() {
  const text = words.value.learn;
  const state = learning.value;
  const isFile = state?.source === null;
  const from = state === null ? '' : isFile ? text.readingFile(state.from) : text.listening(state.from);
  // What it tries changes every moment; what it comes to is told where the proposal stands.
  useWorkSaid({ isUnderWay: state !== null, part: null, sentence: from, saysEnd: false });
  if (state === null) return null;
  const count = (n: number): string => fixed(n, 0, language.value);
  const { settings } = state;
  return (
    <section class="learn listening-to" aria-label={from}>
      <strong>{from}</strong>
      <p>
        {settings === null
          ? ''
          : text.settings(count(settings.baudRate), String(settings.dataBits), settings.parity)}
      </p>
      {!isFile && <p class="pencil">{text.tried(count(state.tried), count(state.bytes))}</p>}
      <div class="actions">
        <Button
          id="stop-learning"
          onPress={() => void beginning.run(() => request('readout.stop-learning', {}))}
        >
          {text.stop}
        </Button>
      </div>
    </section>
  );
}
