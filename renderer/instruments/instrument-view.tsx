/** One instrument: what it is, its calibrations with their corrections, the pulls that name it, its verification. */
import { useSignal } from '@preact/signals';
import type { KeptCalibration } from '../../core/contract/instrument-requests.ts';
import { type CalibrationForm, holdsWorksheet } from '../../core/instruments/calibration.ts';
import { MEASURES } from '../../core/instruments/instrument.ts';
import { NAME_LENGTH_MAX } from '../../core/limits.ts';
import { Button } from '../design/button.tsx';
import { FaultBlock } from '../design/field.tsx';
import { fixed } from '../numbers/format.ts';
import { unbroken } from '../numbers/prose.ts';
import { say } from '../design/said.tsx';
import { TableScroll } from '../design/table-scroll.tsx';
import {
  choosePaperLanguage,
  chosenLanguages,
  paper,
  paperLanguage,
} from '../stations/certificate/certificate-choice.ts';
import { LanguageOfPaper } from '../stations/certificate/language-of-paper.tsx';
import { errand } from '../store/errand.ts';
import { request } from '../store/session-store.ts';
import { language } from '../store/view-settings.ts';
import { ReasonedAct } from '../trail/reasoned-act.tsx';
import { told } from '../words/told.ts';
import { useSteps } from '../store/taken-back.ts';
import { words } from '../words/words.ts';
import { CalibrationEntry } from './calibration-entry.tsx';
import { CalibrationWord } from './calibration-word.tsx';
import { InstrumentForm } from './instrument-form.tsx';
import {
  type InstrumentHistory,
  history,
  lookAt,
  looking,
  openInstrument,
  readHistory,
} from './open-instrument.ts';
import { readRegister } from './register.ts';
import { ExtensionSheet } from './extension-sheet.tsx';
import { VerificationSheet } from './verification-sheet.tsx';

type Open = 'correct' | 'calibrate' | 'verify' | 'retire' | KeptCalibration | null;

export function InstrumentView() {
  const text = words.value.instruments;
  const open = useSignal<Open>(null);
  const found = history.value;
  const close = () => (open.value = null);
  const back = (
    <div class="actions">
      <Button id="all-instruments" onPress={() => void lookAt(null)}>
        {text.back}
      </Button>
    </div>
  );
  if (found === null)
    return (
      <div class="station instruments">
        {back}
        <FaultBlock fault={looking.fault.value} />
      </div>
    );
  const { instrument } = found;
  return (
    <div class="station instruments" key={instrument.statementId}>
      {back}
      <Head found={found} />
      {open.value === null ? (
        <div class="actions">
          <Button kind="call" id="add-calibration" onPress={() => (open.value = 'calibrate')}>
            {text.addCalibration}
          </Button>
          {MEASURES[instrument.form.kind] === 'force' || instrument.form.kind === 'extensometer' ? (
            <Button id="verify-instrument" onPress={() => (open.value = 'verify')}>
              {text.verify}
            </Button>
          ) : null}
          <Button id="correct-instrument" onPress={() => (open.value = 'correct')}>
            {text.correct}
          </Button>
          <Button onPress={() => (open.value = 'retire')}>
            {instrument.retired ? text.takeBack : text.retire}
          </Button>
        </div>
      ) : null}
      {open.value === 'correct' ? (
        <InstrumentForm before={instrument} onClose={close} onKept={() => void readHistory()} />
      ) : open.value === 'calibrate' ? (
        <CalibrationEntry instrument={instrument} before={null} onClose={close} />
      ) : open.value === 'verify' ? (
        instrument.form.kind === 'extensometer' ? (
          <ExtensionSheet instrument={instrument} onClose={close} />
        ) : (
          <VerificationSheet instrument={instrument} onClose={close} />
        )
      ) : open.value === 'retire' ? (
        <Retire found={found} onClose={close} />
      ) : open.value === null ? null : (
        <CalibrationEntry
          key={open.value.calibrationId}
          instrument={instrument}
          before={open.value}
          onClose={close}
        />
      )}
      <Calibrations found={found} onCorrect={(one) => (open.value = one)} />
      <Pulls found={found} />
    </div>
  );
}

function Head({ found: { instrument } }: { readonly found: InstrumentHistory }) {
  const text = words.value.instruments;
  const { form } = instrument;
  const facts: readonly (readonly [string, string | undefined])[] = [
    [text.kind, text.kinds[form.kind]],
    [text.serialNumber, form.serialNumber],
    [text.description, form.description],
    [text.range, form.range === undefined ? undefined : `${form.range.from} – ${form.range.to}`],
    [text.resolution, form.resolution],
    [text.class, form.class],
    [text.notes, form.notes],
  ];
  return (
    <>
      <div class="opened-head">
        <h2>
          <bdi>{form.name}</bdi>
        </h2>
        {instrument.retired ? (
          text.retired
        ) : (
          <CalibrationWord state={instrument.state} daysLeft={instrument.daysLeft} />
        )}
      </div>
      <dl class="facts">
        {facts.map(([label, value]) =>
          value === undefined ? null : (
            <>
              <dt>{label}</dt>
              <dd>
                <bdi>{value}</bdi>
              </dd>
            </>
          ),
        )}
      </dl>
    </>
  );
}

function Calibrations({
  found: { calibrations },
  onCorrect,
}: {
  readonly found: InstrumentHistory;
  readonly onCorrect: (one: KeptCalibration) => void;
}) {
  const text = words.value.instruments;
  return (
    <section class="block" aria-label={text.calibrations}>
      <h3>{text.calibrations}</h3>
      {calibrations.length === 0 ? (
        <p class="pencil">{text.noCalibration}</p>
      ) : (
        <TableScroll label={words.value.copy.calibrations}>
          <table class="pull-table">
            <thead>
              <tr>
                <th scope="col">{text.certificate}</th>
                <th scope="col">{text.calibratedOn}</th>
                <th scope="col">{text.due}</th>
                <th scope="col">{text.calibratedBy}</th>
                <th scope="col">{text.class}</th>
                <th scope="col">{text.verifiedRange}</th>
                <th scope="col">{text.correctionTable}</th>
                <td />
              </tr>
            </thead>
            <tbody>
              {calibrations
                .map((one) => <CalibrationRow key={one.calibrationId} one={one} onCorrect={onCorrect} />)
                .reverse()}
            </tbody>
          </table>
        </TableScroll>
      )}
      {calibrations.some(({ form }) => holdsWorksheet(form)) ? <LanguageOfVerifications /> : null}
    </section>
  );
}

function LanguageOfVerifications() {
  useSteps({ paperLanguage: chosenLanguages });
  return <LanguageOfPaper value={paperLanguage.value} onChoose={choosePaperLanguage} />;
}

/** The class that a worksheet gave is a sentence of this program; any other stays as it was written. */
const classSaid = (form: CalibrationForm, written: string): string =>
  holdsWorksheet(form) ? told(written) : written;

function CalibrationRow({
  one,
  onCorrect,
}: {
  readonly one: KeptCalibration;
  readonly onCorrect: (one: KeptCalibration) => void;
}) {
  const text = words.value.instruments;
  const { form, supersededBy, reason } = one;
  const none = words.value.common.none;
  return (
    <tr class={supersededBy === null ? undefined : 'superseded'}>
      <td>
        <bdi>{form.certificateNumber}</bdi>
        {holdsWorksheet(form) ? <p class="pencil small">{text.worksheetKept}</p> : null}
        {reason === null ? null : (
          <p class="pencil small">
            <bdi>{reason}</bdi>
          </p>
        )}
      </td>
      <td class="number">{form.calibratedOn}</td>
      <td class="number">{form.dueOn}</td>
      <td>
        <bdi>{form.by ?? none}</bdi>
      </td>
      <td class={form.class === undefined ? undefined : 'class-said'}>
        <bdi>{form.class === undefined ? none : unbroken(classSaid(form, form.class))}</bdi>
      </td>
      <td class="number">
        {form.verifiedRange === undefined ? none : `${form.verifiedRange.from} – ${form.verifiedRange.to}`}
      </td>
      <td>
        {form.correction === undefined ? none : text.tablePoints(String(form.correction.points.length))}
      </td>
      <td>
        {holdsWorksheet(form) ? <VerificationPdf one={one} /> : null}
        {supersededBy === null ? (
          <Button
            kind="quiet"
            name={`${text.correctCalibration} ${form.certificateNumber}`}
            onPress={() => onCorrect(one)}
          >
            {text.correctCalibration}
          </Button>
        ) : (
          text.superseded
        )}
      </td>
    </tr>
  );
}

const writing = errand();

/** Written from the archive alone, so that the same one can be written again years later. */
function VerificationPdf({ one }: { readonly one: KeptCalibration }) {
  const text = words.value.instruments.sheet;
  const instrumentId = openInstrument.value;
  const write = async () => {
    if (instrumentId === null) return;
    const written = await writing.run(() =>
      request('window.write-verification', {
        instrumentId,
        calibrationId: one.calibrationId,
        paper: paper.value,
        language: paperLanguage.value,
        suggestedName: `verification ${one.form.certificateNumber}`.slice(0, NAME_LENGTH_MAX),
      }),
    );
    if (written !== null && written.path !== null) say(text.written(written.path));
    else if (writing.fault.value !== null) say(told(writing.fault.value.sentence));
  };
  return (
    <Button kind="quiet" name={`${text.pdf} ${one.form.certificateNumber}`} onPress={() => void write()}>
      {text.pdf}
    </Button>
  );
}

function Pulls({ found: { pulls, pullCount } }: { readonly found: InstrumentHistory }) {
  const text = words.value.instruments;
  return (
    <section class="block" aria-label={text.pulls}>
      <h3>{text.pulls}</h3>
      {pullCount === 0 ? (
        <p class="pencil">{text.noPulls}</p>
      ) : (
        <p>
          {text.pullCount(fixed(pullCount, 0, language.value))}{' '}
          {pulls.map(({ pullId, state }) => `${String(pullId)} (${text.states[state]})`).join(', ')}
          {pulls.length < pullCount ? ', …' : ''}
        </p>
      )}
    </section>
  );
}

const retiring = errand();

function Retire({
  found: { instrument },
  onClose,
}: {
  readonly found: InstrumentHistory;
  readonly onClose: () => void;
}) {
  const text = words.value.instruments;
  const { form, retired, statementId } = instrument;
  return (
    <ReasonedAct
      subject={`retire-instrument ${String(statementId)}`}
      title={retired ? text.takeBackTitle(form.name) : text.retireTitle(form.name)}
      means={retired ? text.takeBackMeans : text.retireMeans}
      act={(retired ? text.takeBack : text.retire).replace('…', '')}
      errand={retiring}
      onClose={onClose}
      onAct={async (given) => {
        const done = await retiring.run(() =>
          request('instrument.save', { form, supersedes: statementId, retired: !retired, ...given }),
        );
        if (done === null) return false;
        await Promise.all([readRegister(), readHistory()]);
        return true;
      }}
    />
  );
}
