/** A worksheet on the page: what is typed, what it comes to by now, and how it is kept. */
import type { ComponentChildren } from 'preact';
import type { InstrumentLine } from '../../core/contract/instrument-requests.ts';
import { Button } from '../design/button.tsx';
import { words } from '../words/words.ts';
import { told } from '../words/told.ts';
import type { AsRead } from './worksheet-line.ts';

export interface WorksheetFrameProps<T> {
  readonly instrument: InstrumentLine;
  readonly lead: string;
  /** Said while it is not filled in far enough. */
  readonly waits: string;
  readonly asRead: AsRead<T>;
  readonly verdict: (verified: T) => ComponentChildren;
  readonly onAddLine: () => void;
  readonly keep: ComponentChildren;
  /** Head and table. */
  readonly children: ComponentChildren;
}

export function WorksheetFrame<T>(props: WorksheetFrameProps<T>) {
  const { instrument, lead, waits, asRead, verdict, onAddLine, keep, children } = props;
  const text = words.value.instruments.sheet;
  const title = text.title(instrument.form.name);
  return (
    <section class="instrument-form verification-sheet" aria-label={title}>
      <h3>{title}</h3>
      <p class="pencil small">{lead}</p>
      {children}
      <div class="actions">
        <Button onPress={onAddLine}>{text.addLine}</Button>
      </div>
      {asRead.kind === 'waits' ? (
        <p class="pencil">{waits}</p>
      ) : asRead.kind === 'wrong' ? (
        <p class="field-fault" role="status">
          {told(asRead.sentence)}
        </p>
      ) : (
        verdict(asRead)
      )}
      {keep}
    </section>
  );
}
