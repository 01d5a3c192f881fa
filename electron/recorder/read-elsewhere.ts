/**
 * Pulls of other archives, opened beside the own one: each other archive is opened for reading by a recorder that does
 * nothing else, and let go again soon after the last question, so that nobody is locked out of it for long.
 */
import type { Answer, ReplyOf, RequestName, RequestOf } from '../../core/contract/index.ts';
import { judgeSets } from './find-pulls.ts';
import { Recorder } from './recorder.ts';
import { RequestRefused } from './request-refused.ts';

/** After the last answer. */
const STAYS_OPEN_MS = 5_000;

interface Opened {
  readonly recorder: Promise<Recorder>;
  /** Questions that are not answered yet. */
  asked: number;
  timer: ReturnType<typeof setTimeout> | null;
}

type AnswerRequest = <N extends RequestName>(
  recorder: Recorder,
  name: N,
  payload: unknown,
) => Promise<Answer<ReplyOf<N>>>;

const openedBy = new WeakMap<Recorder, Map<string, Opened>>();

/** Throws a RequestRefused with what the other archive's recorder answers instead. */
export async function readElsewhere(
  own: Recorder,
  { file, name, payload }: RequestOf<'archive.read-elsewhere'>,
  answer: AnswerRequest,
): Promise<ReplyOf<'archive.read-elsewhere'>> {
  return withOpened(own, file, async (recorder) => {
    const answered = await answer(recorder, name, payload);
    if (answered.ok) return { value: answered.value };
    throw new RequestRefused(answered.fault.code, answered.fault.sentence, answered.fault.field);
  });
}

/** Sets judged with one answer, so that none takes long. */
const JUDGED_WITH_ANSWER = 5;

/** The first hits of a search that rests on verdicts, with a few more sets judged than the time before. */
export async function searchVerdictsElsewhere(
  own: Recorder,
  { file, query, order, limit }: RequestOf<'archive.search-elsewhere'>,
): Promise<ReplyOf<'archive.search-elsewhere'>> {
  return withOpened(own, file, async (recorder) => {
    const { archive } = recorder;
    const asked = { query, order };
    const { left, unjudged } = await judgeSets(recorder, { limit: JUDGED_WITH_ANSWER });
    const { pullIds, index } = await archive.call('foundPullIds', asked);
    const { items } = await archive.call('searchPulls', { ...asked, limit });
    return {
      total: pullIds.length,
      items,
      index,
      setsNotJudged: left,
      setsUnjudged: unjudged,
      isHalfCopy: archive.opened.isHalfCopy,
    };
  });
}

/** Throws a RequestRefused where it can't be read. */
async function withOpened<T>(
  own: Recorder,
  file: string,
  work: (recorder: Recorder) => Promise<T>,
): Promise<T> {
  const opened = openedOf(own, file);
  if (opened.timer !== null) clearTimeout(opened.timer);
  opened.timer = null;
  opened.asked++;
  try {
    const recorder = await opened.recorder;
    const { archiveFault } = recorder;
    if (archiveFault !== null) throw new RequestRefused(archiveFault.code, archiveFault.sentence);
    return await work(recorder);
  } finally {
    opened.asked--;
    if (opened.asked === 0) opened.timer = setTimeout(() => void letGo(own, file), STAYS_OPEN_MS).unref();
  }
}

/** To be called before another archive is opened otherwise, and at the end. Without a file: all of them. */
export async function letGoElsewhere(own: Recorder, file?: string): Promise<void> {
  const files = file === undefined ? [...(openedBy.get(own)?.keys() ?? [])] : [file];
  await Promise.all(files.map((one) => letGo(own, one)));
}

function openedOf(own: Recorder, file: string): Opened {
  const all = openedBy.get(own) ?? new Map<string, Opened>();
  if (!openedBy.has(own)) own.atEnd.add(() => letGoElsewhere(own));
  openedBy.set(own, all);
  const before = all.get(file);
  if (before !== undefined) return before;
  const opened: Opened = { recorder: begun(own, file), asked: 0, timer: null };
  all.set(file, opened);
  return opened;
}

async function begun(own: Recorder, file: string): Promise<Recorder> {
  const recorder = new Recorder({
    archivePath: file,
    programVersion: own.options.programVersion,
    makeFolder: false,
    resume: false,
    log: own.options.log,
  });
  await recorder.begin();
  return recorder;
}

async function letGo(own: Recorder, file: string): Promise<void> {
  const opened = openedBy.get(own)?.get(file);
  if (opened === undefined) return;
  openedBy.get(own)?.delete(file);
  if (opened.timer !== null) clearTimeout(opened.timer);
  await (await opened.recorder).end();
}
