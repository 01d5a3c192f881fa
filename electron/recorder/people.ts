/** Entering and correcting the people of this machine. */
import type { ReplyOf, RequestOf } from '../../core/contract/index.ts';
import { hashPin, pinGate } from './pin-gate.ts';
import type { Recorder } from './recorder.ts';

/** Whoever has a PIN is corrected with that PIN only. */
export async function savePerson(
  recorder: Recorder,
  { pin, pinBefore, retired = false, supersedes, ...said }: RequestOf<'people.save'>,
): Promise<ReplyOf<'people.save'>> {
  const before = supersedes === undefined ? null : await recorder.archive.call('personOf', supersedes);
  if (before !== null) await pinGate.pass(before, pinBefore);
  const kept = before?.pin ?? null;
  const personId = await recorder.archive.call('savePerson', {
    ...said,
    retired,
    ...(supersedes === undefined ? {} : { supersedes }),
    pin: pin === undefined ? kept : pin === null ? null : await hashPin(pin),
  });
  return { personId };
}
