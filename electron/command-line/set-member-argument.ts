/** Which specimen of a set is meant: by its name, by its number, or by the number of its pull. */
import type { KeptMember, KeptSet } from '../../core/contract/set-requests.ts';
import type { VerbArguments } from './arguments.ts';
import { pullNumber } from './pull-number.ts';
import type { RecorderAccess } from './recorder-access.ts';
import { InputError } from './verb.ts';

/** `--specimen NAME|N` or `--pull N`. Throws an InputError where none, several or no such member is named. */
export async function memberAsked(
  access: RecorderAccess,
  given: VerbArguments,
  set: KeptSet,
): Promise<KeptMember> {
  const named = [...given.texts('specimen'), ...given.texts('pull')];
  if (named.length !== 1)
    throw new InputError(
      named.length === 0 ? 'argument-missing' : 'arguments-conflict',
      'Name one specimen of the set, with --specimen NAME, or with --pull N for the one of that pull.',
      'specimen',
    );
  const specimen = given.text('specimen');
  return specimen === undefined
    ? memberOfPull(access, set, given.text('pull'))
    : memberNamed(set, specimen, 'specimen');
}

/** By name, else by the specimen's number. Throws an InputError that lists those that there are. */
export function memberNamed(set: KeptSet, text: string, option: string): KeptMember {
  const wanted = text.trim();
  const byName = set.members.filter((one) => one.specimenName === wanted);
  const byNumber = set.members.filter((one) =>
    [one.specimenId, one.firstSpecimenId].map(String).includes(wanted),
  );
  const found = [...new Set([...byName, ...byNumber])];
  const [one, other] = found;
  if (one !== undefined && other === undefined) return one;
  const names = set.members.map(({ specimenName, specimenId }) => `${specimenName} (${String(specimenId)})`);
  throw new InputError(
    one === undefined ? 'no-such-member' : 'member-ambiguous',
    one === undefined
      ? `--${option} "${text.slice(0, 80)}" is not in set ${String(set.setId)}; ${names.length === 0 ? 'no specimen is in it yet: "gaugemark set join"' : `in it are ${names.join(', ')}`}.`
      : `--${option} "${text.slice(0, 80)}" could be ${found.map((m) => `${m.specimenName} (${String(m.specimenId)})`).join(' or ')}; give --pull N.`,
    option,
  );
}

async function memberOfPull(
  access: RecorderAccess,
  set: KeptSet,
  text: string | undefined,
): Promise<KeptMember> {
  const pullId = pullNumber(text);
  const { places } = await access.ask('set.of-specimen', { pullId });
  const place = places.find(({ setId }) => setId === set.setId);
  const member = set.members.find(({ setMemberId }) => setMemberId === place?.setMemberId);
  if (member === undefined)
    throw new InputError(
      'no-such-member',
      `The specimen of pull ${String(pullId)} is not in set ${String(set.setId)}; "gaugemark set join ${String(set.setId)} --pull ${String(pullId)}" puts it in.`,
      'pull',
    );
  return member;
}
