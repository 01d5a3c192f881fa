/** Frames and instruments: the register with its due dates, one instrument, its calibrations, its verification. */
import { useSignal } from '@preact/signals';
import { useEffect, useRef } from 'preact/hooks';
import type { InstrumentLine } from '../../core/contract/instrument-requests.ts';
import { Button } from '../design/button.tsx';
import { drawnAtOnce } from '../design/drawn-at-once.ts';
import { TableScroll } from '../design/table-scroll.tsx';
import { archiveGeneration } from '../store/session-store.ts';
import { words } from '../words/words.ts';
import { CalibrationWord } from './calibration-word.tsx';
import { InstrumentForm } from './instrument-form.tsx';
import { InstrumentView } from './instrument-view.tsx';
import { lookAt, openInstrument, readHistory } from './open-instrument.ts';
import { readRegister, register } from './register.ts';
import '../stations/station.css';
import '../archive/archive-place.css';
import './instruments-place.css';

export function InstrumentsPlace() {
  const archive = archiveGeneration.value;
  const archiveBefore = useRef(archive);
  useEffect(() => {
    void readRegister();
    // Numbers of one archive mean other instruments in the next.
    if (archiveBefore.current === archive) void readHistory();
    else void lookAt(null);
    archiveBefore.current = archive;
  }, [archive]);
  return openInstrument.value === null ? <Register /> : <InstrumentView />;
}

function Register() {
  const text = words.value.instruments;
  const entering = useSignal(false);
  const close = () => {
    drawnAtOnce(() => (entering.value = false));
    document.getElementById('add-instrument')?.focus();
  };
  return (
    <div class="station instruments">
      <h2>{words.value.stations.instruments}</h2>
      <p class="pencil">{text.lead}</p>
      {register.value.length === 0 ? <p class="empty">{text.none}</p> : <RegisterTable />}
      {entering.value ? (
        <InstrumentForm before={null} onClose={close} onKept={(id) => void lookAt(id)} />
      ) : (
        <div class="actions">
          <Button kind="call" id="add-instrument" onPress={() => (entering.value = true)}>
            {text.add}
          </Button>
        </div>
      )}
    </div>
  );
}

/** What needs somebody first: overdue, then without calibration, then by due date; out of use last. */
function byUrgency(a: InstrumentLine, b: InstrumentLine): number {
  const rank = ({ retired, state }: InstrumentLine): number =>
    retired ? 3 : state === 'overdue' ? 0 : state === 'none' ? 1 : 2;
  return rank(a) - rank(b) || (a.daysLeft ?? 0) - (b.daysLeft ?? 0) || a.instrumentId - b.instrumentId;
}

function RegisterTable() {
  const text = words.value.instruments;
  return (
    <TableScroll label={words.value.stations.instruments}>
      <table class="pull-table">
        <thead>
          <tr>
            <th scope="col">{text.name}</th>
            <th scope="col">{text.kind}</th>
            <th scope="col">{text.serialNumber}</th>
            <th scope="col">{text.state}</th>
            <th scope="col">{text.certificate}</th>
            <th scope="col">{text.due}</th>
          </tr>
        </thead>
        <tbody>
          {[...register.value].sort(byUrgency).map((one) => (
            <tr key={one.instrumentId} class={one.retired ? 'retired' : undefined}>
              <td>
                <button
                  type="button"
                  class="open-pull"
                  aria-label={text.open(one.form.name)}
                  onClick={() => void lookAt(one.instrumentId)}
                >
                  <bdi>{one.form.name}</bdi>
                </button>
              </td>
              <td>{text.kinds[one.form.kind]}</td>
              <td>
                <bdi>{one.form.serialNumber ?? words.value.common.none}</bdi>
              </td>
              <td>
                {one.retired ? text.retired : <CalibrationWord state={one.state} daysLeft={one.daysLeft} />}
              </td>
              <td>
                <bdi>{one.calibration?.form.certificateNumber ?? words.value.common.none}</bdi>
              </td>
              <td class="number">{one.calibration?.form.dueOn ?? words.value.common.none}</td>
            </tr>
          ))}
        </tbody>
      </table>
    </TableScroll>
  );
}
