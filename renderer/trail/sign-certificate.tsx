/** A signature under the certificate that was just written: name or sign, meaning, and the PIN where one is asked for. */
import { useSignal } from '@preact/signals';
import { useEffect } from 'preact/hooks';
import type { Person } from '../../core/contract/people-requests.ts';
import { SIGNATURE_MEANINGS } from '../../core/contract/signature-requests.ts';
import { NAME_LENGTH_MAX } from '../../core/limits.ts';
import { Button } from '../design/button.tsx';
import { FaultBlock, Field } from '../design/field.tsx';
import { say } from '../design/said.tsx';
import { SelectField } from '../stations/set/select-field.tsx';
import { person } from '../stations/set/person.ts';
import { errand } from '../store/errand.ts';
import { request } from '../store/session-store.ts';
import { words } from '../words/words.ts';

const signing = errand();

export interface SignCertificateProps {
  readonly asked: { readonly setId: number; readonly setMemberId?: number };
  readonly number: string;
}

export function SignCertificate({ asked, number }: SignCertificateProps) {
  const text = words.value.trail;
  const meaning = useSignal<(typeof SIGNATURE_MEANINGS)[number]>('tested by');
  const pin = useSignal('');
  const people = useSignal<readonly Person[]>([]);
  const signed = useSignal<string | null>(null);
  useEffect(() => {
    void request('people.list', {}).then((answer) => {
      if (answer.ok) people.value = answer.value.people.filter(({ retired }) => !retired);
    });
  }, [number]);
  const sign = async () => {
    const printedName = person.value.trim();
    const done = await signing.run(() =>
      request('certificate.sign', {
        ...asked,
        number,
        meaning: meaning.value,
        ...(printedName === '' ? {} : { printedName }),
        ...(pin.value === '' ? {} : { pin: pin.value }),
      }),
    );
    pin.value = '';
    if (done === null) return;
    signed.value = text.signed(number, done.signature.printedName);
    say(signed.value);
  };
  return (
    <section class="block" aria-labelledby="sign-title">
      <h2 id="sign-title">{text.sign}</h2>
      <p class="pencil">{text.signMeans(number)}</p>
      <div class="note-fields">
        <Field
          label={text.printedName}
          value={person.value}
          lengthMax={NAME_LENGTH_MAX}
          list="people-here"
          onInput={(value) => (person.value = value)}
        />
        <datalist id="people-here">
          {people.value.map((one) => (
            <option key={one.personId} value={one.name}>
              {one.sign}
            </option>
          ))}
        </datalist>
        <SelectField
          id="signature-meaning"
          label={text.meaning}
          value={meaning.value}
          options={SIGNATURE_MEANINGS.map((value) => ({ value, label: text.meanings[value] }))}
          onChoose={(value) => {
            const found = SIGNATURE_MEANINGS.find((one) => one === value);
            if (found !== undefined) meaning.value = found;
          }}
        />
        <div class="field">
          <label for="signature-pin">{text.pin}</label>
          <input
            id="signature-pin"
            class="entry"
            type="password"
            autocomplete="off"
            maxLength={64}
            value={pin.value}
            onInput={(event) => (pin.value = event.currentTarget.value)}
          />
        </div>
      </div>
      <FaultBlock fault={signing.fault.value} />
      <div class="actions">
        <Button id="sign-certificate" onPress={() => void sign()}>
          {text.signAct}
        </Button>
      </div>
      {signed.value === null ? null : <p class="written">{signed.value}</p>}
    </section>
  );
}
