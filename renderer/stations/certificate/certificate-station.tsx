/** Certificate: what it will say, and where it is written. It is issued, with its number, when it is written first. */
import { useSignal } from '@preact/signals';
import { useEffect } from 'preact/hooks';
import type { CertificateContent } from '../../../core/certificate/certificate-content.ts';
import { PAPERS } from '../../../core/certificate/paper/paper-style.ts';
import type { Fault } from '../../../core/contract/index.ts';
import type { CertificateForm } from '../../../core/contract/window-requests.ts';
import { Button } from '../../design/button.tsx';
import { Choice, FaultBlock } from '../../design/field.tsx';
import { say } from '../../design/said.tsx';
import { errand } from '../../store/errand.ts';
import { goTo } from '../../store/place.ts';
import { request } from '../../store/session-store.ts';
import { SignCertificate } from '../../trail/sign-certificate.tsx';
import { words } from '../../words/words.ts';
import { type OpenedSet, openedSet } from '../set/open-set.ts';
import { SelectField } from '../set/select-field.tsx';
import { certifiedMember, paper } from './certificate-choice.ts';
import { CertificatePreview } from './certificate-preview.tsx';
import { LaboratoryForm } from './laboratory-form.tsx';
import '../station.css';
import './certificate-station.css';

const writing = errand();

export function CertificateStation() {
  const text = words.value.set.certificate;
  const opened = openedSet.value;
  if (opened === null || opened.judged.members.length === 0)
    return (
      <div class="station">
        <p class="empty">{opened === null ? text.none : text.noneOfSet}</p>
        <div class="actions">
          <Button kind="call" onPress={() => goTo('set')}>
            {text.toSet}
          </Button>
        </div>
        <LaboratoryForm />
      </div>
    );
  return <OfSet opened={opened} />;
}

function OfSet({ opened }: { readonly opened: OpenedSet }) {
  const text = words.value.set.certificate;
  const { kept, judged } = opened;
  const content = useSignal<CertificateContent | null>(null);
  const looking = useSignal<Fault | null>(null);
  const houseChanged = useSignal(0);
  const written = useSignal<string | null>(null);
  const number = useSignal<string | null>(null);
  // A member chosen in a set before is none of this one.
  const chosen = judged.members.some((one) => one.setMemberId === certifiedMember.value)
    ? certifiedMember.value
    : null;
  const asked = { setId: kept.setId, ...(chosen === null ? {} : { setMemberId: chosen }) };
  useEffect(() => {
    let stale = false;
    number.value = null;
    void request('set.certificate-preview', asked).then((preview) => {
      if (stale) return;
      if (preview.ok) content.value = preview.value.content;
      looking.value = preview.ok ? null : preview.fault;
    });
    return () => {
      stale = true;
    };
  }, [opened, chosen, houseChanged.value]);

  const write = async (form: CertificateForm) => {
    written.value = null;
    const name = judged.members.find((one) => one.setMemberId === chosen)?.specimenName;
    const done = await writing.run(() =>
      request('window.write-certificate', {
        ...asked,
        form,
        paper: paper.value,
        suggestedName: [kept.set.form.name, name]
          .filter((part) => part !== undefined)
          .join(' ')
          .slice(0, 100),
      }),
    );
    if (done?.written === undefined || done.written === null) return;
    const { number: issued, path, again } = done.written;
    number.value = issued;
    written.value = again ? text.again(issued, path) : text.written(issued, path);
    say(written.value);
  };

  return (
    <div class="station certificate">
      <div class="certificate-head">
        <h2>
          {text.title}: {kept.set.form.name}
        </h2>
        {judged.outcome === 'undecided' && chosen === null ? <p class="pencil">{text.undecided}</p> : null}
        <div class="certificate-choices">
          <SelectField
            id="certified"
            label={text.what}
            value={chosen === null ? '' : String(chosen)}
            options={[
              { value: '', label: text.whole },
              ...judged.members.map((one) => ({ value: String(one.setMemberId), label: one.specimenName })),
            ]}
            onChoose={(value) => (certifiedMember.value = value === '' ? null : Number(value))}
          />
          <Choice
            name={text.paper}
            showName
            options={PAPERS.map((value) => ({ value, label: text.papers[value] }))}
            value={paper.value}
            onChoose={(value) => (paper.value = value)}
          />
          <div class="actions">
            <Button kind="call" id="write-pdf" onPress={() => void write('pdf')}>
              {writing.busy.value ? text.writing : text.pdf}
            </Button>
            <Button onPress={() => void write('csv')}>{text.csv}</Button>
            <Button onPress={() => void write('json')}>{text.json}</Button>
          </div>
        </div>
        <FaultBlock fault={writing.fault.value ?? looking.value} />
        <p class={written.value === null ? 'pencil small' : 'written'}>{written.value ?? text.numberComes}</p>
      </div>
      {number.value === null ? null : <SignCertificate asked={asked} number={number.value} />}
      {content.value === null ? (
        looking.value === null ? (
          <p class="empty">{words.value.result.workingOut}</p>
        ) : null
      ) : (
        <CertificatePreview content={content.value} />
      )}
      <LaboratoryForm onKept={() => houseChanged.value++} />
    </div>
  );
}
