/** The verification worksheet of an extensometer: a table one types into, with errors and classes beside each line. */
import {
  calibrationOfExtension,
  correctionOfWorksheet,
} from '../../core/instruments/calibration-of-verification.ts';
import { EXTENSION_UNITS } from '../../core/verification/extension-worksheet.ts';
import {
  type ExtensionVerification,
  type VerifiedDisplacement,
  extensionWorkings,
} from '../../core/verification/verify-extension.ts';
import { Field } from '../design/field.tsx';
import { useSaidAtRest } from '../design/told-in-parts.ts';
import { asShown, fixed } from '../numbers/format.ts';
import { useSteps } from '../store/taken-back.ts';
import { language, units } from '../store/view-settings.ts';
import { told } from '../words/told.ts';
import { words } from '../words/words.ts';
import {
  SERIES,
  blankExtensionLine,
  changeExtension,
  changeExtensionLine,
  extensionAsRead,
  extensionDraft,
  extensionSheets,
} from './extension-draft.ts';
import { useSheet } from './held-sheets.ts';
import { KeepSheet, type SheetProps } from './keep-sheet.tsx';
import { WorksheetFrame } from './worksheet-frame.tsx';
import { changedInSheet } from './worksheet-line.ts';
import { WorksheetHead } from './worksheet-head.tsx';
import { WorksheetTable } from './worksheet-table.tsx';

/** Names of standards are the same in every language. */
const ISO = 'ISO 9513';
const E83 = 'ASTM E83';

export function ExtensionSheet({ instrument, onClose }: SheetProps) {
  const text = words.value.extensionSheet;
  const draft = useSheet(extensionSheets, instrument.instrumentId, units.value === 'US' ? 'in' : 'mm');
  useSteps({ worksheet: draft }, draft, { within: changedInSheet });
  const found = extensionAsRead.value;
  return (
    <WorksheetFrame
      instrument={instrument}
      lead={text.lead}
      waits={text.waits}
      asRead={found}
      verdict={({ verification }) => <Verdict found={verification} />}
      onAddLine={() => changeExtension({ lines: [...extensionDraft.value.lines, blankExtensionLine()] })}
      keep={
        <KeepSheet
          instrument={instrument}
          onClose={onClose}
          further={
            found.kind === 'verified' ? calibrationOfExtension(found.worksheet, found.verification) : null
          }
          correction={found.kind === 'verified' ? correctionOfWorksheet(found.read) : null}
          sheets={extensionSheets.held}
        />
      }
    >
      <WorksheetHead
        units={EXTENSION_UNITS}
        stated={extensionDraft.value}
        onChange={changeExtension}
        beforeResolution={<GaugeLengths />}
      />
      <Table />
    </WorksheetFrame>
  );
}

function GaugeLengths() {
  const text = words.value.extensionSheet;
  const { gaugeLength, measuredGaugeLength } = extensionDraft.value;
  return (
    <>
      <Field
        id="extension-gauge-length"
        label={text.gaugeLength}
        number
        value={gaugeLength}
        onInput={(typed) => changeExtension({ gaugeLength: typed })}
      />
      <Field
        label={text.measuredGaugeLength}
        hint={text.measuredHint}
        number
        value={measuredGaugeLength}
        onInput={(typed) => changeExtension({ measuredGaugeLength: typed })}
      />
    </>
  );
}

const shown = (text: string): string => asShown(text, language.value);

const SERIES_PLACES = Array.from({ length: SERIES }, (_, run) => run);

function Table() {
  const text = words.value.extensionSheet;
  const sheet = words.value.instruments.sheet;
  const { lines, unit } = extensionDraft.value;
  const found = extensionAsRead.value;
  const stepOf = (place: number): VerifiedDisplacement | undefined =>
    found.kind === 'verified' ? found.verification.steps[found.places.indexOf(place)] : undefined;
  const names = SERIES_PLACES.map((run) => sheet.run(String(run + 1)));
  return (
    <WorksheetTable
      name={words.value.copy.worksheet}
      lines={lines}
      applied={text.applied}
      unit={unit}
      runNames={names}
      onChange={changeExtensionLine}
      figureHeads={['q, %', 'q, µm', text.strain, ISO, E83]}
      figures={(place) => <Figures step={stepOf(place)} />}
    />
  );
}

function Figures({ step }: { readonly step: VerifiedDisplacement | undefined }) {
  const { noClass } = words.value.instruments.sheet;
  const number = (value: number, places: number): string => fixed(value, places, language.value);
  const cells =
    step === undefined
      ? ['', '', '', '', '']
      : [
          number(step.bias.percent, 3),
          number(step.bias.um, 2),
          number(step.bias.strain, 6),
          step.isoClass === null ? `▲ ${noClass}` : shown(step.isoClass),
          step.e83Class ?? `▲ ${noClass}`,
        ];
  return (
    <>
      {cells.map((cell, column) => (
        <td key={column} class={`number worksheet-figure ${cell.startsWith('▲') ? 'outside' : ''}`}>
          {cell}
        </td>
      ))}
    </>
  );
}

function Verdict({ found }: { readonly found: ExtensionVerification }) {
  const text = words.value.extensionSheet;
  const stated = (standard: string, held: string | null): string =>
    held === null ? text.none(standard) : text.stated(standard, shown(held));
  const both = [stated(ISO, found.iso.class), stated(E83, found.e83.class)] as const;
  // Every figure that is typed makes another one; a reader hears it when the keys rest.
  useSaidAtRest(both.join(' '));
  return (
    <div class="worksheet-verdict" id="extension-verdict">
      <p>{both[0]}</p>
      <p>{both[1]}</p>
      {found.gaugeLength === null ? null : (
        <p>{text.gaugeError(fixed(found.gaugeLength.percent, 3, language.value))}</p>
      )}
      <details class="worksheet-working">
        <summary>{words.value.instruments.sheet.working}</summary>
        {extensionWorkings(found).map(({ of, working }) => (
          <p key={`${of} ${working.formula}`} class="number">
            {told(working.substituted)}
          </p>
        ))}
      </details>
    </div>
  );
}
