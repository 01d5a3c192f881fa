/** What the certificate of a set, or of one specimen of it, says; from the archive alone. */
import type { CertifiedSpecimen } from '../../core/certificate/certificate-input.ts';
import { NO_LABORATORY } from '../../core/certificate/compose-certificate.ts';
import type { Certified } from '../../core/contract/certificate-requests.ts';
import type { PaperWords } from '../../core/words/paper-words.ts';
import { type Composed, certifiedSpecimen, issuedResult } from './certified-specimen.ts';
import { judgedSet, voidRemarks } from './judged-set.ts';
import type { Recorder } from './recorder.ts';
import { RequestRefused } from './request-refused.ts';

type CertifiedSet = Extract<Certified, { readonly setId: number }>;

/** Throws a RequestRefused where the set has no specimen, or no such member. */
export async function setCertificate(
  recorder: Recorder,
  { setId, setMemberId }: CertifiedSet,
  words: PaperWords,
): Promise<Composed> {
  const { kept, members, overview } = await judgedSet(recorder, setId);
  if (members.length === 0)
    throw new RequestRefused(
      'set-empty',
      `Set ${String(setId)} has no specimen yet, so there is nothing to certify; put its specimens into it first.`,
      'setId',
    );
  const chosen =
    setMemberId === undefined ? members : members.filter((one) => one.member.setMemberId === setMemberId);
  if (chosen.length === 0)
    throw new RequestRefused(
      'no-such-member',
      `Set ${String(setId)} has no member ${String(setMemberId)}; look at its members and name one of them.`,
      'setMemberId',
    );
  const house = await recorder.archive.call('laboratory');
  const specimens: CertifiedSpecimen[] = [];
  for (const one of chosen)
    specimens.push(await certifiedSpecimen(recorder, { ...one, set: kept.set }, words));
  return {
    kind: setMemberId === undefined ? 'set' : 'specimen',
    laboratory: house ?? NO_LABORATORY,
    programVersion: recorder.options.programVersion,
    set: kept.set,
    setVerdict: overview.verdict,
    specimens,
    deviations: chosen.flatMap((one) => voidRemarks(one.member)),
    written: chosen.flatMap(({ member }) =>
      member.voidedPulls.flatMap(({ voided: { by, reason } }) => [by ?? '', reason]),
    ),
    signatures: [],
    results: chosen.flatMap((one) => issuedResult(one, one.member.specimenId)),
  };
}
