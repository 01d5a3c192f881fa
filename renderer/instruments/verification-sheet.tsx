/** The verification worksheet: a table one types into, with errors and class beside each line at once. */
import { useLayoutEffect } from 'preact/hooks';
import {
  calibrationOfVerification,
  correctionOfWorksheet,
} from '../../core/instruments/calibration-of-verification.ts';
import type { VerifiedStep } from '../../core/verification/verify-force.ts';
import { WORKSHEET_UNITS } from '../../core/verification/worksheet.ts';
import { Field } from '../design/field.tsx';
import { asShown } from '../numbers/format.ts';
import { useSteps } from '../store/taken-back.ts';
import { language, units } from '../store/view-settings.ts';
import { words } from '../words/words.ts';
import { useSheet } from './held-sheets.ts';
import { KeepSheet, type SheetProps } from './keep-sheet.tsx';
import { VerificationVerdict, VerificationWorking } from './verification-verdict.tsx';
import {
  RUNS,
  blankForceLine,
  changeLine,
  changeWorksheet,
  forceSheets,
  worksheetAsRead,
  worksheetDraft,
} from './worksheet-draft.ts';
import { Cell } from './worksheet-cells.tsx';
import { WorksheetFrame } from './worksheet-frame.tsx';
import { changedInSheet } from './worksheet-line.ts';
import { WorksheetHead } from './worksheet-head.tsx';
import { WorksheetTable } from './worksheet-table.tsx';

export function VerificationSheet({ instrument, onClose }: SheetProps) {
  const text = words.value.instruments.sheet;
  const { instrumentId } = instrument;
  const draft = useSheet(forceSheets, instrumentId, units.value === 'US' ? 'lbf' : 'kN');
  // With the drawing, not a frame later: the next key may come before that.
  useLayoutEffect(() => document.getElementById('sheet-resolution')?.focus(), [draft]);
  useSteps({ worksheet: draft }, draft, { within: changedInSheet });
  return (
    <WorksheetFrame
      instrument={instrument}
      lead={text.lead}
      waits={text.waits}
      asRead={worksheetAsRead.value}
      verdict={({ verification }) => (
        <>
          <VerificationVerdict found={verification} />
          <VerificationWorking found={verification} />
        </>
      )}
      onAddLine={() => changeWorksheet({ lines: [...worksheetDraft.value.lines, blankForceLine()] })}
      keep={<KeepForces instrument={instrument} onClose={onClose} />}
    >
      <WorksheetHead
        units={WORKSHEET_UNITS}
        stated={worksheetDraft.value}
        onChange={changeWorksheet}
        behindResolution={<Capacity />}
      />
      <SheetTable />
    </WorksheetFrame>
  );
}

function Capacity() {
  const text = words.value.instruments.sheet;
  return (
    <Field
      label={text.capacity}
      hint={text.capacityHint}
      number
      value={worksheetDraft.value.capacity}
      onInput={(capacity) => changeWorksheet({ capacity })}
    />
  );
}

const RUN_PLACES = Array.from({ length: RUNS }, (_, run) => run);

function SheetTable() {
  const text = words.value.instruments.sheet;
  const { lines, zeros, unit } = worksheetDraft.value;
  const found = worksheetAsRead.value;
  const stepOf = (place: number): VerifiedStep | undefined =>
    found.kind === 'verified' ? found.verification.steps[found.places.indexOf(place)] : undefined;
  const runNames = RUN_PLACES.map((run) => text.run(String(run + 1)));
  return (
    <WorksheetTable
      name={words.value.copy.worksheet}
      lines={lines}
      applied={text.applied}
      unit={unit}
      runNames={runNames}
      onChange={changeLine}
      figureHeads={[
        text.error,
        text.repeatability,
        text.reversibility,
        text.relativeResolution,
        text.class,
        text.e4,
      ]}
      figures={(place) => <Figures step={stepOf(place)} />}
    >
      <tr>
        <th scope="row">{text.zero}</th>
        {RUN_PLACES.map((run) => (
          <Cell
            key={run}
            name={`${text.zero}, ${runNames[run] ?? ''}`}
            value={zeros[run] ?? ''}
            onInput={(typed) => changeWorksheet({ zeros: zeros.map((one, i) => (i === run ? typed : one)) })}
          />
        ))}
        <td />
        <td class="number worksheet-figure" colSpan={6} style={{ textAlign: 'start' }}>
          {found.kind === 'verified' && found.verification.zero !== null ? (
            <>
              f<sub>0</sub> = {shown(found.verification.zero.text)} %
            </>
          ) : null}
        </td>
      </tr>
    </WorksheetTable>
  );
}

const shown = (text: string): string => asShown(text, language.value);

function Figures({ step }: { readonly step: VerifiedStep | undefined }) {
  const text = words.value.instruments.sheet;
  const none = words.value.common.none;
  if (step === undefined)
    return (
      <>
        {[0, 1, 2, 3, 4, 5].map((column) => (
          <td key={column} class="worksheet-figure" />
        ))}
      </>
    );
  return (
    <>
      <td class="number worksheet-figure">{shown(step.error.text)}</td>
      <td class="number worksheet-figure">{shown(step.repeatability.text)}</td>
      <td class="number worksheet-figure">
        {step.reversibility === null ? none : shown(step.reversibility.text)}
      </td>
      <td class="number worksheet-figure">{shown(step.resolution.text)}</td>
      <td class={`worksheet-figure ${step.isoClass === null ? 'outside' : ''}`}>
        {step.isoClass === null ? `▲ ${text.noClass}` : shown(step.isoClass)}
      </td>
      <td class={`worksheet-figure ${step.e4.within ? '' : 'outside'}`}>
        {step.e4.within ? text.within : `▲ ${text.outside}`}
      </td>
    </>
  );
}

function KeepForces({ instrument, onClose }: SheetProps) {
  const found = worksheetAsRead.value;
  return (
    <KeepSheet
      instrument={instrument}
      onClose={onClose}
      further={
        found.kind === 'verified' ? calibrationOfVerification(found.worksheet, found.verification) : null
      }
      correction={found.kind === 'verified' ? correctionOfWorksheet(found.read) : null}
      sheets={forceSheets.held}
    />
  );
}
