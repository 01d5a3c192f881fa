/** What the certificate of a pull says whose specimen is in no set: everything but a verdict. From the archive alone. */
import { NO_LABORATORY } from '../../core/certificate/compose-certificate.ts';
import { voidSentence } from '../../core/pull/void-sentence.ts';
import { readSpecimen } from '../../core/specimen/read-specimen.ts';
import type { PaperWords } from '../../core/words/paper-words.ts';
import { type Composed, certifiedSpecimen, issuedResult } from './certified-specimen.ts';
import { evaluatedPull } from './evaluated-pull.ts';
import type { Recorder } from './recorder.ts';
import { RequestRefused } from './request-refused.ts';

/** Throws a RequestRefused while the pull is being recorded. */
export async function pullCertificate(
  recorder: Recorder,
  pullId: number,
  words: PaperWords,
): Promise<Composed> {
  const kept = await recorder.archive.call('specimenOfPull', pullId);
  const { specimenId, specimen: file } = kept;
  const read = readSpecimen(file);
  if (!read.ok) throw new Error(`specimen ${String(specimenId)} can't be read any more`);
  const evaluated = await evaluatedPull(recorder, pullId, kept);
  const { pull } = evaluated;
  if (pull.state !== 'ended')
    throw new RequestRefused(
      'pull-open',
      `Pull ${String(pullId)} is still being recorded; put its record away before a certificate is made of it.`,
      'about.pullId',
    );
  const { voided } = pull;
  const one = await certifiedSpecimen(
    recorder,
    {
      ...evaluated,
      specimen: read.specimen,
      form: {
        specimenId: file.id,
        ...(voided === null
          ? {}
          : { voided: { by: voided.by ?? words.text('nobody named'), reason: voided.reason } }),
      },
      verdict: null,
      set: null,
    },
    words,
  );
  return {
    kind: 'specimen',
    laboratory: (await recorder.archive.call('laboratory')) ?? NO_LABORATORY,
    programVersion: recorder.options.programVersion,
    set: null,
    setVerdict: null,
    specimens: [one],
    deviations: voided === null ? [] : [voidSentence(pullId, voided)],
    signatures: [],
    results: issuedResult(evaluated, specimenId),
  };
}
