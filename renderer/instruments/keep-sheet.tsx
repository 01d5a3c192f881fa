/** With a certificate number and its days a worksheet becomes a calibration of the instrument. */
import { type Signal, signal, useSignal } from '@preact/signals';
import { useEffect } from 'preact/hooks';
import type { InstrumentLine } from '../../core/contract/instrument-requests.ts';
import type { CorrectionTable } from '../../core/instruments/calibration.ts';
import { Button } from '../design/button.tsx';
import { focusFirstFault } from '../design/focus-fault.ts';
import { FaultBlock } from '../design/field.tsx';
import { LeaveForm } from '../design/leave-form.tsx';
import { say } from '../design/said.tsx';
import { PersonField } from '../people/person-field.tsx';
import { person } from '../stations/set/person.ts';
import { errand } from '../store/errand.ts';
import { HeldTyping, useHeldTyping } from '../store/held-typing.ts';
import { useSteps } from '../store/taken-back.ts';
import { request } from '../store/session-store.ts';
import { words } from '../words/words.ts';
import {
  BLANK_CALIBRATION,
  CalibrationFields,
  type EnteredCalibration,
  checkedCalibration,
} from './calibration-fields.tsx';
import { saidBy } from './form-text.ts';
import { readHistory } from './open-instrument.ts';
import { readRegister } from './register.ts';

const saving = errand();

/** By instrument. */
const held = new HeldTyping<{
  readonly entered: Signal<EnteredCalibration>;
  readonly withTable: Signal<boolean>;
}>('verifiedCalibration');

export interface SheetProps {
  readonly instrument: InstrumentLine;
  readonly onClose: () => void;
}

export interface KeepSheetProps extends SheetProps {
  /** What the worksheet says for the calibration; null while it says nothing yet. */
  readonly further: object | null;
  /** The means of the worksheet, kept when asked for; null where they do not grow and make no table, or say nothing yet. */
  readonly correction: CorrectionTable | null;
  /** The worksheet above, which goes with it. */
  readonly sheets: Pick<HeldTyping<object>, 'isTyped' | 'letGo'>;
}

export function KeepSheet({ instrument, onClose, further, correction, sheets }: KeepSheetProps) {
  const text = words.value.instruments;
  const { instrumentId } = instrument;
  const typed = useHeldTyping(held, instrumentId, () => ({
    entered: signal(BLANK_CALIBRATION),
    withTable: signal(false),
  }));
  const { entered, withTable } = typed;
  useSteps({ calibration: entered, correctionTable: withTable }, typed);
  const tried = useSignal(false);
  useEffect(() => {
    saving.fault.value = null;
  }, [instrumentId]);
  const noTable = further !== null && correction === null;
  const checked = checkedCalibration(entered.value, {
    ...further,
    ...(correction !== null && withTable.value ? { correction } : {}),
  });
  const letGo = () => {
    held.letGo(instrumentId);
    sheets.letGo(instrumentId);
  };
  const over = () => {
    letGo();
    onClose();
  };
  const keep = async () => {
    tried.value = true;
    if (!checked.ok) {
      focusFirstFault('.verification-sheet');
      return;
    }
    const kept = await saving.run(() =>
      request('instrument.calibrate', {
        instrumentId,
        form: checked.form,
        ...saidBy(),
      }),
    );
    if (kept === null) return;
    letGo();
    await Promise.all([readRegister(), readHistory()]);
    say(text.calibrationKept(checked.form.certificateNumber));
    onClose();
  };
  return (
    <>
      <h3>{text.sheet.keepTitle}</h3>
      <CalibrationFields
        entered={entered}
        faults={new Map(tried.value && !checked.ok ? checked.faults : [])}
      />
      <label class="small">
        <input
          type="checkbox"
          checked={withTable.value && !noTable}
          disabled={noTable}
          aria-describedby={noTable ? 'no-correction-table' : undefined}
          onChange={(event) => (withTable.value = event.currentTarget.checked)}
        />{' '}
        {text.sheet.withTable}
      </label>
      {noTable && (
        <p id="no-correction-table" class="pencil small">
          {text.sheet.noTable}
        </p>
      )}
      <PersonField label={text.by} value={person.value} onInput={(value) => (person.value = value)} />
      <FaultBlock fault={saving.fault.value} />
      <div class="actions">
        <Button
          kind="call"
          id="keep-verification"
          notNow={further === null ? text.sheet.notYet : undefined}
          onPress={() => void keep()}
        >
          {text.sheet.keep}
        </Button>
        <LeaveForm isTyped={held.isTyped(instrumentId) || sheets.isTyped(instrumentId)} onPress={over} />
      </div>
    </>
  );
}
