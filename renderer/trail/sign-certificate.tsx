/** A signature under the certificate that was just written: name or sign, meaning, and the PIN where one is asked for. */
import { useSignal } from '@preact/signals';
import type { Certified } from '../../core/contract/certificate-requests.ts';
import type { SignatureContent } from '../../core/certificate/certificate-content.ts';
import { SIGNATURE_MEANINGS } from '../../core/contract/signature-requests.ts';
import { Button } from '../design/button.tsx';
import { FaultBlock } from '../design/field.tsx';
import { say } from '../design/said.tsx';
import { WordSelect } from '../stations/set/word-select.tsx';
import { person } from '../stations/set/person.ts';
import { PersonField } from '../people/person-field.tsx';
import { PinField } from '../people/pin-field.tsx';
import { errand } from '../store/errand.ts';
import { request } from '../store/session-store.ts';
import type { ToldWhenDrawn } from '../words/told.ts';
import { words } from '../words/words.ts';
import { signatureText } from './signature-text.ts';

const signing = errand();

export interface SignCertificateProps {
  readonly about: Certified;
  readonly number: string;
  /** Those that stand under it as it is now. */
  readonly signatures: readonly SignatureContent[];
  readonly onSigned: () => void;
}

export function SignCertificate({ about, number, signatures, onSigned }: SignCertificateProps) {
  const text = words.value.trail;
  const meaning = useSignal<(typeof SIGNATURE_MEANINGS)[number]>('tested by');
  const pin = useSignal('');
  const signed = useSignal<ToldWhenDrawn | null>(null);
  const sign = async () => {
    const printedName = person.value.trim();
    const done = await signing.run(() =>
      request('certificate.sign', {
        about,
        number,
        meaning: meaning.value,
        ...(printedName === '' ? {} : { printedName }),
        ...(pin.value === '' ? {} : { pin: pin.value }),
      }),
    );
    pin.value = '';
    if (done === null) return;
    signed.value = () => words.value.trail.signed(number, done.signature.printedName);
    say(signed.value());
    onSigned();
  };
  return (
    <section class="block" id="sign-block" aria-labelledby="sign-title">
      <h2 id="sign-title">{text.sign}</h2>
      <p class="pencil">{text.signMeans(number)}</p>
      {signatures.length === 0 ? null : (
        <p id="signed-by">{text.signedBy(signatures.map(signatureText).join(' · '))}</p>
      )}
      <div class="note-fields">
        <PersonField
          label={text.printedName}
          value={person.value}
          onInput={(value) => (person.value = value)}
        />
        <WordSelect
          id="signature-meaning"
          label={text.meaning}
          value={meaning.value}
          choices={SIGNATURE_MEANINGS}
          names={text.meanings}
          onChoose={(value) => (meaning.value = value)}
        />
        <PinField
          id="signature-pin"
          label={text.pin}
          value={pin.value}
          onInput={(value) => (pin.value = value)}
        />
      </div>
      <FaultBlock fault={signing.fault.value} />
      <div class="actions">
        <Button id="sign-certificate" onPress={() => void sign()}>
          {text.signAct}
        </Button>
      </div>
      {signed.value === null ? null : <p class="written">{signed.value()}</p>}
    </section>
  );
}
