/** `gaugemark set save|list|show|join|void|judge|override`: sets that are kept in an archive, from file to verdict. */
import { resolve } from 'node:path';
import { OUTCOMES } from '../../core/acceptance/verdict.ts';
import type { KeptSet } from '../../core/contract/set-requests.ts';
import { UNIT_SYSTEMS } from '../../core/quantity/display-unit.ts';
import { measuredInInches } from '../../core/results/specimen-findings.ts';
import { readSpecimen } from '../../core/specimen/read-specimen.ts';
import { allPages } from './all-pages.ts';
import { type VerbArguments, oneOf, takeArguments } from './arguments.ts';
import { gatherValues } from './gather-values.ts';
import { readJsonFile } from './input-files.ts';
import { pullNumber } from './pull-number.ts';
import { type RecorderAccess, existingArchive, recorderAccess } from './recorder-access.ts';
import { RULES_FOLDER_OPTION } from './rule-pack-argument.ts';
import { rowNumber } from './row-number.ts';
import { SAID_OPTIONS, neededText, saidBy } from './said.ts';
import { memberAsked, memberNamed } from './set-member-argument.ts';
import { judgedText, setListText, setText } from './set-text.ts';
import { EXIT_DONE, type ExitCode, InputError, type VerbIo } from './verb.ts';

/** Sets asked for at once. */
const PAGE = 200;

const OPTIONS = {
  ...SAID_OPTIONS,
  archive: { type: 'string' },
  set: { type: 'string' },
  search: { type: 'string' },
  pull: { type: 'string', multiple: true },
  specimen: { type: 'string', multiple: true },
  'retest-of': { type: 'string' },
  to: { type: 'string' },
  units: { type: 'string' },
  ...RULES_FOLDER_OPTION,
  json: { type: 'boolean' },
} as const;

export const SET_ACTIONS = ['save', 'list', 'show', 'join', 'void', 'judge', 'override'] as const;
export type SetAction = (typeof SET_ACTIONS)[number];

/** Those that only read. */
const READING: readonly SetAction[] = ['list', 'show', 'judge'];
/** Options that an act has beside --archive and --json. */
const OWN_OPTIONS: Readonly<Record<SetAction, readonly (keyof typeof OPTIONS)[]>> = {
  save: ['set', 'operator', 'reason', 'rules-folder'],
  list: ['search'],
  show: ['units', 'rules-folder'],
  join: ['pull', 'specimen', 'retest-of', 'operator', 'reason'],
  void: ['pull', 'specimen', 'operator', 'reason'],
  judge: ['rules-folder'],
  override: ['pull', 'specimen', 'to', 'operator', 'reason'],
};

interface Told {
  readonly document: unknown;
  readonly text: string;
}
/** What is wrong with the arguments or the file is told before the archive is opened. */
type Work = (given: VerbArguments, target: string) => (access: RecorderAccess) => Promise<Told>;

export async function archivedSets(
  action: SetAction,
  args: readonly string[],
  io: VerbIo,
): Promise<ExitCode> {
  const options = Object.fromEntries(
    (['archive', 'json', ...OWN_OPTIONS[action]] as const).map((name) => [name, OPTIONS[name]]),
  );
  const given = takeArguments(gatherValues(args, options), options, POSITIONALS[action], 'set');
  const ready = DO[action](given, given.positionals[0] ?? '');
  const access = await recorderAccess({
    archive: existingArchive(given.text('archive')),
    toRecord: !READING.includes(action),
    note: io.err,
  });
  try {
    const { document, text } = await ready(access);
    io.out(given.has('json') ? JSON.stringify(document) : text);
    return EXIT_DONE;
  } finally {
    await access.end();
  }
}

const NUMBER = ['The number of the set'];
const POSITIONALS: Readonly<Record<SetAction, readonly string[]>> = {
  save: ['The file of the set'],
  list: [],
  show: NUMBER,
  join: NUMBER,
  void: NUMBER,
  judge: NUMBER,
  override: NUMBER,
};

const save: Work = (given, path) => {
  const form = readJsonFile(path, 'set file');
  if (typeof form !== 'object' || form === null || Array.isArray(form))
    throw new InputError(
      'set-wrong',
      `${path}: a set file is one JSON object; "gaugemark help set" shows an example.`,
    );
  const corrected = given.text('set');
  const setId = corrected === undefined ? undefined : rowNumber(corrected, 'set');
  const why =
    setId === undefined ? {} : { setId, reason: neededText(given, 'reason', 'why the set is corrected') };
  return async (access) => {
    const kept = await access
      .ask('set.save', { form: { ...form }, ...why, ...saidBy(given), ...rulesFolderOf(given) })
      .catch((error: unknown) => {
        throw inFile(path, error);
      });
    const { set } = await access.ask('set.get', kept);
    return {
      document: { setId: kept.setId, form: set.form, rulePack: packOf(set) },
      text: `Set ${String(kept.setId)}, ${set.form.name}, is ${setId === undefined ? 'kept' : 'corrected; what was said before stays'}. Put specimens into it: gaugemark set join ${String(kept.setId)} --pull N`,
    };
  };
};

/** The recorder runs elsewhere: a path is told whole. */
const rulesFolderOf = (given: VerbArguments): { readonly rulesFolder?: string } => {
  const named = given.text('rules-folder');
  return named === undefined ? {} : { rulesFolder: resolve(named) };
};

/** The recorder knows no file: it is named here, and the fields as they stand in it. */
function inFile(path: string, error: unknown): unknown {
  return error instanceof InputError && (error.field === 'form' || error.field?.startsWith('form.') === true)
    ? new InputError(error.code, `${path}: ${error.message}`, error.field.replace(/^form\.?/, '') || 'set')
    : error;
}

const packOf = ({ pack: { id, name, edition, kind } }: KeptSet['set']) => ({ id, name, edition, kind });

const list: Work = (given) => async (access) => {
  const search = given.text('search');
  const sets = await allPages((at) =>
    access.ask('set.list', { limit: PAGE, ...(search === undefined ? {} : { search }), ...at }),
  );
  const none = search === undefined ? 'No set is kept here.' : 'No set here fits the search.';
  return { document: { sets }, text: sets.length === 0 ? none : setListText(sets) };
};

const show: Work = (given, target) => {
  const setId = rowNumber(target, 'set');
  const units = oneOf('units', given.text('units'), UNIT_SYSTEMS);
  return async (access) => {
    const kept = await access.ask('set.get', { setId });
    const judged = await access.ask('set.judge', { setId, ...rulesFolderOf(given) });
    const { set, ...rest } = kept;
    return {
      document: { ...rest, form: set.form, rulePack: packOf(set), judged },
      text: setText(kept, judged, units ?? (await usualUnits(access, kept))),
    };
  };
};

/** As every specimen was measured; SI where they differ. */
async function usualUnits(access: RecorderAccess, { members }: KeptSet): Promise<'us' | 'si'> {
  for (const { specimenId } of members) {
    const read = readSpecimen((await access.ask('specimen.get', { specimenId })).specimen);
    if (!read.ok || !measuredInInches(read.specimen)) return 'si';
  }
  return members.length > 0 ? 'us' : 'si';
}

const judge: Work = (given, target) => {
  const setId = rowNumber(target, 'set');
  return async (access) => {
    const kept = await access.ask('set.get', { setId });
    const judged = await access.ask('set.judge', { setId, ...rulesFolderOf(given) });
    return { document: { setId, ...judged }, text: judgedText(kept, judged) };
  };
};

const join: Work = (given, target) => {
  const setId = rowNumber(target, 'set');
  const pulls = given.texts('pull').map((text) => pullNumber(text));
  const specimens = given.texts('specimen').map((text) => rowNumber(text, 'specimen'));
  const count = pulls.length + specimens.length;
  if (count === 0)
    throw new InputError(
      'argument-missing',
      'Say what joins the set: --pull N, once for each pull, or --specimen N for one that is not pulled yet.',
      'pull',
    );
  const retestOf = given.text('retest-of');
  if (retestOf !== undefined && count > 1)
    throw new InputError(
      'arguments-conflict',
      'A retest is joined by itself; give --pull or --specimen once with --retest-of.',
      'retest-of',
    );
  const why = retestOf === undefined ? {} : { reason: neededText(given, 'reason', 'why it is tested again') };
  return async (access) => {
    const set = await access.ask('set.get', { setId });
    const again =
      retestOf === undefined ? {} : { retestOf: memberNamed(set, retestOf, 'retest-of').setMemberId };
    const joining: number[] = [];
    // Every number is looked up before the first one joins.
    for (const pullId of pulls) joining.push((await access.ask('pull.get', { pullId })).specimenId);
    for (const specimenId of specimens) {
      await access.ask('specimen.get', { specimenId });
      joining.push(specimenId);
    }
    const joined: { readonly specimenId: number; readonly setMemberId: number }[] = [];
    for (const specimenId of joining)
      joined.push({
        specimenId,
        ...(await access.ask('set.join', { setId, specimenId, ...again, ...why, ...saidBy(given) })),
      });
    const { members } = await access.ask('set.get', { setId });
    const names = joined.map(
      ({ setMemberId }) => members.find((one) => one.setMemberId === setMemberId)?.specimenName,
    );
    return {
      document: { setId, joined },
      text: `In set ${String(setId)} now: ${names.join(', ')}. ${String(members.length)} ${members.length === 1 ? 'specimen is' : 'specimens are'} in it.`,
    };
  };
};

const voidOne: Work = (given, target) => {
  const setId = rowNumber(target, 'set');
  const reason = neededText(given, 'reason', 'why the specimen counts no more in this set');
  const by = neededText(given, 'operator', 'who decides so');
  return async (access) => {
    const member = await memberAsked(access, given, await access.ask('set.get', { setId }));
    const { setMemberId, specimenName } = member;
    await access.ask('set.void-member', { setMemberId, by, reason });
    return {
      document: { setId, setMemberId, specimenName, voided: { by, reason } },
      text: `${specimenName} counts no more in set ${String(setId)}: ${reason} (${by}). It stays visible there.`,
    };
  };
};

const override: Work = (given, target) => {
  const setId = rowNumber(target, 'set');
  const to = oneOf('to', given.text('to'), OUTCOMES);
  if (to === undefined)
    throw new InputError('option-missing', `--to WORD is missing: ${OUTCOMES.join(', ')}.`, 'to');
  const person = neededText(given, 'operator', 'an override needs the person who decides');
  const reason = neededText(given, 'reason', 'an override needs its reason');
  return async (access) => {
    const member = await memberAsked(access, given, await access.ask('set.get', { setId }));
    const { setMemberId, specimenName } = member;
    const before = await access.ask('set.judge', { setId });
    const own = before.members.find((one) => one.setMemberId === setMemberId);
    if (own === undefined || own.outcomeOfRules === null)
      throw new InputError(
        'not-judged-yet',
        `${specimenName} is not judged yet, so there is nothing to overrule; first: ${own?.next ?? own?.faults[0] ?? 'it is void in this set'}.`,
        'specimen',
      );
    await access.ask('set.override', { setMemberId, to, person, reason });
    const judged = await access.ask('set.judge', { setId });
    const after = judged.members.find((one) => one.setMemberId === setMemberId);
    return {
      document: { setId, outcome: judged.outcome, sentence: judged.sentence, member: after },
      text: `${specimenName}: ${after?.sentence ?? ''}\nSet ${String(setId)}: ${judged.outcome.toUpperCase()}. ${judged.sentence}`,
    };
  };
};

const DO: Readonly<Record<SetAction, Work>> = { save, list, show, join, void: voidOne, judge, override };
