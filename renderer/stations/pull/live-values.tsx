/** The key values of the pull that is being recorded, as a table: renewed once a second while it is folded out. */
import { useSignal } from '@preact/signals';
import { useEffect } from 'preact/hooks';
import type { SessionPull } from '../../../core/contract/session.ts';
import { KeyValues } from '../../plot/key-values.tsx';
import type { PlotMark } from '../../plot/picture.ts';
import { pointCells, pointHeads } from '../../plot/point-values.ts';
import type { CurveColumns } from '../../store/curve-columns.ts';
import { words } from '../../words/words.ts';

/** Slow enough to be read, and to be read aloud, before it changes. */
export const RENEWED_MS = 1_000;

export interface LiveValuesProps {
  readonly pull: SessionPull;
  readonly columns: CurveColumns;
  readonly abscissa: 'extension' | 'travel' | null;
  readonly marks: () => readonly PlotMark[];
}

export function LiveValues({ pull, columns, abscissa, marks }: LiveValuesProps) {
  const isOpen = useSignal(false);
  const renewed = useSignal(0);
  useEffect(() => {
    if (!isOpen.value) return;
    const timer = setInterval(() => (renewed.value += 1), RENEWED_MS);
    return () => clearInterval(timer);
  }, [isOpen.value]);
  const text = words.value;
  return (
    <KeyValues
      id="live-values"
      isOver
      summary={text.plot.liveTable}
      caption={text.plot.tableTitle}
      onFold={(open) => (isOpen.value = open)}
      columns={pointHeads(abscissa)}
      rows={isOpen.value && renewed.value >= 0 ? rowsOf({ pull, columns, abscissa, marks }) : []}
    />
  );
}

function rowsOf({ pull, columns, abscissa, marks }: LiveValuesProps) {
  const text = words.value.plot;
  const points = { columns, abscissa, triggerSeq: pull.triggerSeq };
  return marks()
    .filter(({ reading }) => reading >= 0 && reading < columns.length)
    .map(({ sign, label, reading }) => ({
      name: label !== '' ? label : sign === 'now' ? text.now : text.start,
      cells: pointCells(points, reading),
    }));
}
