/** Learning from a source that is talking is begun from the readout station, and from the alarm that nothing fits. */
import type { LearnableSource } from '../../../core/contract/source.ts';
import { errand } from '../../store/errand.ts';
import { request } from '../../store/session-store.ts';
import type { ControlLines } from './control-lines.tsx';

/** Its fault is shown at the readout station. */
export const beginning = errand();

/** An open readout is closed for it. */
export async function beginLearning(source: LearnableSource, controlLines: ControlLines): Promise<void> {
  await beginning.run(() =>
    request('readout.learn-port', {
      source,
      ...(Object.keys(controlLines).length === 0 ? {} : { controlLines }),
    }),
  );
}
