/** What a certificate will say, where it is written, and who signs it. It is issued, with its number, when it is written first. */
import { useSignal } from '@preact/signals';
import type { ComponentChildren } from 'preact';
import { useEffect } from 'preact/hooks';
import { type CertificateContent, languageOf } from '../../../core/certificate/certificate-content.ts';
import { PAPERS } from '../../../core/certificate/paper/paper-style.ts';
import type { Certified, OutdatedCertificate } from '../../../core/contract/certificate-requests.ts';
import type { Fault } from '../../../core/contract/index.ts';
import type { CertificateForm } from '../../../core/contract/window-requests.ts';
import { Button } from '../../design/button.tsx';
import { Choice, FaultBlock } from '../../design/field.tsx';
import { say } from '../../design/said.tsx';
import { errand } from '../../store/errand.ts';
import { request } from '../../store/session-store.ts';
import { SignCertificate } from '../../trail/sign-certificate.tsx';
import type { ToldWhenDrawn } from '../../words/told.ts';
import { words } from '../../words/words.ts';
import { WayOn, kindOf } from '../marked-step.tsx';
import {
  chooseLanguageFor,
  languageChosenFor,
  paper,
  paperLanguage,
  sawNumber,
} from './certificate-choice.ts';
import { CertificatePreview } from './certificate-preview.tsx';
import { LaboratoryForm } from './laboratory-form.tsx';
import { LanguageOfPaper } from './language-of-paper.tsx';
import { Outdated } from './outdated-certificate.tsx';
import { writingStep } from './writing-progress.ts';
import '../station.css';
import './certificate-station.css';

const writing = errand();

/** The newest preview, and what was asked for it. */
interface Seen {
  readonly of: string;
  readonly content: CertificateContent;
  readonly number: string | null;
  readonly outdated: OutdatedCertificate | null;
}

export interface CertificateSheetProps {
  readonly about: Certified;
  readonly title: string;
  readonly suggestedName: string;
  /** Changes when what the certificate says may have changed. */
  readonly basis: unknown;
  readonly note?: string | null;
  /** What else is to be chosen. */
  readonly children?: ComponentChildren;
  readonly onIssued?: () => void;
}

export function CertificateSheet(props: CertificateSheetProps) {
  const { about, title, suggestedName, basis, note, children, onIssued } = props;
  const text = words.value.set.certificate;
  const seen = useSignal<Seen | null>(null);
  const looking = useSignal<Fault | null>(null);
  const changes = useSignal(0);
  const written = useSignal<ToldWhenDrawn | null>(null);
  const subject = JSON.stringify(about);
  const chosen = languageChosenFor(about);
  const beginIn = paperLanguage.value;
  const asked = { about, beginIn, ...(chosen === undefined ? {} : { language: chosen }) };
  const key = JSON.stringify(asked);
  // What was seen of another certificate, or of this one in another language, is nothing to sign or to go by.
  const { content = null, number = null, outdated = null } = seen.value?.of === key ? seen.value : {};
  const language = chosen ?? (content === null ? beginIn : languageOf(content));
  useEffect(() => {
    written.value = null;
  }, [subject]);
  useEffect(() => {
    let stale = false;
    void request('certificate.preview', asked).then((preview) => {
      if (stale) return;
      if (preview.ok) sawNumber(about, preview.value.number);
      if (preview.ok) seen.value = { of: key, ...preview.value };
      else seen.value = seen.value?.of === key ? { ...seen.value, number: null, outdated: null } : null;
      looking.value = preview.ok ? null : preview.fault;
    });
    return () => {
      stale = true;
    };
  }, [basis, key, changes.value]);

  const write = async (form: CertificateForm) => {
    written.value = null;
    writingStep.value = null;
    const done = await writing.run(() =>
      request('window.write-certificate', {
        ...asked,
        form,
        paper: paper.value,
        suggestedName: suggestedName.slice(0, 100),
      }),
    );
    if (done?.written === undefined || done.written === null) return;
    const { number: issued, path, again } = done.written;
    if (seen.value?.of === key) seen.value = { ...seen.value, number: issued, outdated: null };
    sawNumber(about, issued);
    written.value = () => words.value.set.certificate[again ? 'again' : 'written'](issued, path);
    say(written.value());
    changes.value++;
    onIssued?.();
  };

  return (
    <div class="station certificate">
      <div class="certificate-head">
        <h2>{title}</h2>
        {note === null || note === undefined ? null : <p class="pencil">{note}</p>}
        <div class="certificate-choices">
          {children}
          <Choice
            name={text.paper}
            showName
            options={PAPERS.map((value) => ({ value, label: text.papers[value] }))}
            value={paper.value}
            onChoose={(value) => (paper.value = value)}
          />
          <LanguageOfPaper value={language} onChoose={(value) => chooseLanguageFor(about, value)} />
          <div class="actions">
            <Button kind={kindOf('certificate')} id="write-pdf" onPress={() => void write('pdf')}>
              {writing.busy.value ? text.writing : text.pdf}
            </Button>
            <Button onPress={() => void write('csv')}>{text.csv}</Button>
            <Button onPress={() => void write('json')}>{text.json}</Button>
            <WayOn beside={[]} />
          </div>
        </div>
        {writing.busy.value && writingStep.value !== null ? <WritingProgress /> : null}
        <FaultBlock fault={writing.fault.value ?? looking.value} />
        {outdated === null ? null : <Outdated outdated={outdated} />}
        <p class={written.value === null ? 'pencil small' : 'written'}>
          {written.value?.() ?? (number === null ? text.numberComes : text.issuedAs(number))}
        </p>
      </div>
      {number === null ? null : (
        <SignCertificate
          about={about}
          number={number}
          signatures={content?.signatures ?? []}
          onSigned={() => changes.value++}
        />
      )}
      {content === null ? (
        looking.value === null ? (
          <p class="empty">{words.value.result.workingOut}</p>
        ) : null
      ) : (
        <CertificatePreview content={content} />
      )}
      <LaboratoryForm onKept={() => changes.value++} />
    </div>
  );
}

function WritingProgress() {
  const text = words.value.writing;
  const now = writingStep.value;
  const seconds = useSignal(0);
  useEffect(() => {
    const timer = setInterval(() => seconds.value++, 1_000);
    return () => clearInterval(timer);
  }, []);
  if (now === null) return null;
  return (
    <p class="actions">
      <span role="status">{text.steps[now.step]}</span>
      {/* How many pages the engine has printed it says only when all are. */}
      {now.step === 'saving' && now.of > 0 ? (
        <span class="number pencil">{text.printed(String(now.of))}</span>
      ) : now.of === 0 ? (
        <span class="number pencil">{text.soFar(String(seconds.value))}</span>
      ) : (
        <>
          <progress value={now.done} max={now.of} aria-label={text.steps[now.step]} />
          <span>{text.photo(String(now.done), String(now.of))}</span>
        </>
      )}
      <Button id="stop-writing" onPress={() => void request('window.stop-writing', {})}>
        {text.stop}
      </Button>
    </p>
  );
}
