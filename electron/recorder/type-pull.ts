/** Keeps a pull that a person typed from the frame's display, unless its values can't be or nobody has said that they are right. */
import type { ReplyOf, RequestOf } from '../../core/contract/index.ts';
import { typedProfile } from '../../core/pull/typed-pull.ts';
import { typedDoubt } from '../../core/pull/typed-plausibility.ts';
import { readSpecimen } from '../../core/specimen/read-specimen.ts';
import { monotonicUs } from '../../drivers/transport.ts';
import { bootName } from './boot.ts';
import { beforeStart, withAnswer } from './instruments-of-pull.ts';
import type { Recorder } from './recorder.ts';
import { RequestRefused } from './request-refused.ts';
import { utcOffsetMinutes } from './utc-offset.ts';

export async function typePull(
  recorder: Recorder,
  { specimenId, typed, operator, sure = false, instruments = [] }: RequestOf<'pull.type'>,
): Promise<ReplyOf<'pull.type'>> {
  const { specimen } = await recorder.archive.call('getSpecimen', specimenId);
  const read = readSpecimen(specimen);
  const doubt = read.ok ? typedDoubt(typed, read.specimen) : null;
  if (doubt !== null && (doubt.kind === 'refused' || !sure))
    throw new RequestRefused(
      doubt.kind === 'refused' ? 'typed-value-refused' : 'typed-value-asked',
      `${doubt.sentence} Nothing was kept.`,
      `typed.${doubt.field}`,
    );
  const startedWallMs = Date.now();
  const before = await beforeStart(recorder.archive, {
    instruments,
    source: { kind: 'typed' },
    profile: typedProfile(),
    wallMs: startedWallMs,
  });
  const pullId = await recorder.archive.call('typePull', {
    specimenId,
    typed,
    operator: operator ?? null,
    startedWallMs,
    startedUtcOffsetMinutes: utcOffsetMinutes(startedWallMs),
    startedMonotonicUs: monotonicUs(),
    boot: bootName(),
    instruments: withAnswer(before, undefined),
  });
  return { pullId };
}
