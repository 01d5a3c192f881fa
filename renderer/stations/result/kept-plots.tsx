/** The curve of a kept pull with its marks, against extension and against time, and its key values as a table. */
import { useSignal } from '@preact/signals';
import { Button } from '../../design/button.tsx';
import { ReadingsNotice } from '../../design/readings-mark.tsx';
import { KeyValues } from '../../plot/key-values.tsx';
import { pointCells, pointHeads } from '../../plot/point-values.ts';
import { PullPlot } from '../../plot/pull-plot.tsx';
import type { OpenedPull } from '../../store/kept-pull.ts';
import { units } from '../../store/view-settings.ts';
import { words } from '../../words/words.ts';
import { readAnewText } from '../evaluation/read-anew-text.ts';
import { offsetLinesOf, recordMarks } from './result-marks.ts';
import './kept-plots.css';

/** Room above the peak and beyond the last reading when a whole curve is shown. */
const ROOM = 1.04;

export function KeptPlots({ opened }: { readonly opened: OpenedPull }) {
  const text = words.value;
  const whole = useSignal(false);
  const recorded = opened.kept.value;
  const outline = opened.outline.value;
  const isOutline = outline !== null && opened.readings.columns.length < outline.total;
  const kept = recorded !== null && isOutline ? outline.numbered(recorded) : recorded;
  const worked = opened.evaluation.value;
  // Lines that were read again have a numbering of their own: its marks belong to no recorded reading.
  const evaluation = worked?.readBy === undefined && !isOutline ? worked : null;
  const arrived = opened.arrived.value;
  const { columns } = isOutline ? outline : opened.readings;
  if (kept === null) return null;
  if (kept.typed !== null) return <p class="empty">{text.typed.noCurve}</p>;
  if (columns.length === 0) return <p class="empty">{text.plot.empty}</p>;
  const abscissa = columns.has('extension') ? 'extension' : columns.has('travel') ? 'travel' : null;
  const isDrawnWhole = whole.value || kept.breakSeq === null;
  const extent = (quantity: 'force' | 'extension' | 'travel') =>
    columns.extent(quantity, isDrawnWhole ? 'all' : 'drawn');
  const drawnTo = (isDrawnWhole ? columns.length : columns.drawnLength) - 1;
  const largestN = Math.max(extent('force')?.max ?? 1, 1) * ROOM;
  const zeroS = kept.triggerSeq === null ? 0 : columns.timeS(kept.triggerSeq);
  const marks = recordMarks(kept, evaluation, columns, text);
  const shared = {
    columns,
    gaps: kept.gaps,
    triggerSeq: kept.triggerSeq,
    breakSeq: kept.breakSeq,
    marks: () => marks,
    ink: 'blue' as const,
    plannedForceN: largestN,
    waiting: false,
    whole: whole.value,
    changes: [isOutline ? null : arrived, evaluation],
    isOutline,
    yieldSeq: evaluation?.marks.upperYield ?? evaluation?.marks.proof ?? null,
    zooms: true,
  };
  const points = { columns, abscissa, triggerSeq: kept.triggerSeq } as const;
  const cell = (reading: number): string[] => pointCells(points, reading);
  return (
    <div class="kept-plots">
      <ReadingsNotice readings={kept.readings} />
      {worked?.readBy === undefined ? null : <p class="pencil">{readAnewText(worked)}</p>}
      {abscissa === null ? null : (
        <PullPlot
          {...shared}
          abscissa={abscissa}
          plannedX={Math.max(extent(abscissa)?.max ?? 1, 0.01) * ROOM}
          lines={
            abscissa === 'extension' ? offsetLinesOf(evaluation, columns, largestN, units.value, text) : []
          }
        />
      )}
      <PullPlot {...shared} abscissa="time" plannedX={Math.max((columns.timeS(drawnTo) - zeroS) * ROOM, 1)} />
      <div class="actions">
        {kept.triggerSeq === null || isOutline ? null : (
          <Button kind="compact" pressed={whole.value} onPress={() => (whole.value = !whole.value)}>
            {whole.value ? text.plot.fromStart : text.plot.whole}
          </Button>
        )}
      </div>
      {isOutline ? null : (
        <KeyValues
          caption={text.plot.tableTitle}
          columns={pointHeads(abscissa)}
          rows={[
            ...(kept.triggerSeq === null ? [] : [{ name: text.plot.start, cells: cell(kept.triggerSeq) }]),
            ...marks.filter((m) => m.label !== '').map((m) => ({ name: m.label, cells: cell(m.reading) })),
            { name: text.plot.end, cells: cell(columns.length - 1) },
          ]}
        />
      )}
    </div>
  );
}
