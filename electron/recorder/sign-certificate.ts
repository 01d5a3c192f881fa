/** A signature under a certificate: by a person of this machine, with the PIN where there is one, or by a printed name. */
import type { PersonWithPin } from '../../core/archive/people-store.ts';
import type { ReplyOf, RequestOf } from '../../core/contract/index.ts';
import { pinGate } from './pin-gate.ts';
import type { Recorder } from './recorder.ts';
import { RequestRefused } from './request-refused.ts';
import { contentSha256Now } from './issue-certificate.ts';
import { utcOffsetMinutes } from './utc-offset.ts';

export async function signCertificate(
  recorder: Recorder,
  { about, number, meaning, pin, ...asked }: RequestOf<'certificate.sign'>,
): Promise<ReplyOf<'certificate.sign'>> {
  const { printedName } = asked;
  const known = await whoSigns(recorder, asked);
  const name = known?.person.name ?? printedName;
  if (name === undefined)
    throw new RequestRefused('name-missing', 'A signature needs a name. Nothing was signed.', 'printedName');
  const byPin = known === null ? false : await pinGate.pass(known, pin);
  const contentSha256 = await contentSha256Now(recorder, { about, number });
  const signature = await recorder.archive.call('signCertificate', {
    number,
    contentSha256,
    printedName: name,
    meaning,
    personId: known?.person.personId ?? null,
    byPin,
    utcOffsetMinutes: utcOffsetMinutes(Date.now()),
  });
  return { signature };
}

/** A typed name or sign that belongs to a person of this machine is that person, PIN included. */
async function whoSigns(
  recorder: Recorder,
  { personId, printedName }: Pick<RequestOf<'certificate.sign'>, 'personId' | 'printedName'>,
): Promise<PersonWithPin | null> {
  if (personId === undefined)
    return printedName === undefined ? null : recorder.archive.call('personNamed', printedName);
  const found = await recorder.archive.call('personOf', personId);
  if (found.person.retired)
    throw new RequestRefused(
      'person-retired',
      `${found.person.name} signs here no more. Nothing was signed.`,
      'personId',
    );
  return found;
}
