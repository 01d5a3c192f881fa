/** What the recorder says is going on, and the pull that belongs to it. Fed by events; catches up after a reload. */
import { type Signal, computed, signal } from '@preact/signals';
import type { Bridge, PageReplyOf, PageRequestName, PageRequestOf } from '../../core/contract/bridge.ts';
import type { Answer, Fault } from '../../core/contract/index.ts';
import type { ExchangeProgress, ReadElsewhere } from '../../core/contract/exchange-requests.ts';
import type { LearningState } from '../../core/contract/learn-requests.ts';
import type { Notice } from '../../core/contract/notice.ts';
import type { Preview, PreviewLine } from '../../core/contract/readout-requests.ts';
import type { Session } from '../../core/contract/session.ts';
import { PREVIEW_LINES_MAX } from '../../core/limits.ts';
import type { RecorderLink } from '../../core/contract/window-requests.ts';
import { ask } from '../bridge/ask.ts';
import { routeOf } from './elsewhere.ts';
import { FollowedPull } from './followed-pull.ts';

export const session = signal<Session | null>(null);
/** Why there is no session, while there is none. */
export const sessionFault = signal<Fault | null>(null);
/** Grows whenever readings have arrived; plots wake up on it. */
export const readingsArrived = signal(0);
export const previewLines = signal<readonly PreviewLine[]>([]);
export const bytesWithoutLine = signal(0);
/** Notices of the moment by code; those that are over are gone. */
export const notices = signal<ReadonlyMap<string, Notice>>(new Map());

/** The newest lines of a second instrument. */
export const secondLines = signal<readonly PreviewLine[]>([]);
/** How far the learning of a readout's lines is; null where none is shown. */
export const learning = signal<LearningState | null>(null);

/** How far long work on the archive is, while some is under way. */
export const exchangeProgress = signal<ExchangeProgress | null>(null);

/** The link to the recorder, once main has told it. */
export const recorderLink = signal<RecorderLink | null>(null);
/** Grows when another archive is used, or when much came into the present one at once, so that lists ask again. */
export const archiveGeneration = signal(0);
/** Where the archive lies that is used; stays while nobody answers. Blank before it is known. */
export const archivePath = signal('');

/** A recorder that doesn't answer at the start is asked again after this time. */
const ASK_AGAIN_MS = 1_000;

let bridge: Bridge | null = null;
let followed: FollowedPull | null = null;

/** The pull of the session with its readings, or null where none is open or ended. */
export const followedPull = signal<FollowedPull | null>(null);

export const sessionState = computed(() => session.value?.state ?? 'closed');
/** The pull has broken or been stopped, and its record runs on until it is put away: either can still be taken back. */
export const heldOpen = computed(
  () =>
    (sessionState.value === 'broken' || sessionState.value === 'stopped') &&
    (session.value?.pull?.heldOpenS ?? null) !== null,
);
/** … and the tail is over: the page calls for what comes next. */
export const tailIsOver = computed(() => heldOpen.value && session.value?.pull?.tailEndsInS === 0);
/** True while leaving or closing could be mistaken for an end of the pull. */
export const recording = computed(
  () => ['ready', 'pulling', 'broken', 'stopped'].includes(sessionState.value) && !heldOpen.value,
);

/** Sends a request; the page has one bridge for its whole life. */
export async function request<N extends PageRequestName>(
  name: N,
  payload: PageRequestOf<N>,
): Promise<Answer<PageReplyOf<N>>> {
  if (bridge === null) throw new Error('the page has no bridge yet: connectStore comes first');
  const route = routeOf(name, payload);
  if (route === null) return ask(bridge, name, payload);
  if ('fault' in route) return { ok: false, fault: route.fault };
  const answer = await ask(bridge, 'archive.read-elsewhere', route.ask);
  // Main has checked it by the contract of what was asked.
  return answer.ok ? { ok: true, value: answer.value.value as PageReplyOf<N> } : answer;
}

/** A question about a whole other archive. */
export async function requestElsewhere<N extends ReadElsewhere>(
  file: string,
  name: N,
  payload: PageRequestOf<N>,
): Promise<Answer<PageReplyOf<N>>> {
  const answer = await request('archive.read-elsewhere', { file, name, payload });
  return answer.ok ? { ok: true, value: answer.value.value as PageReplyOf<N> } : answer;
}

/** Joins the store to the bridge. Returns a function that lets go of it again. */
export function connectStore(to: Bridge): () => void {
  bridge = to;
  const off = [
    to.on('session', (snapshot) => {
      takeSession(snapshot);
      void lookAgainAtLink();
    }),
    to.on('readings', (event) => {
      if (followed?.pullId !== event.pullId) follow(event.pullId);
      followed?.take(event);
    }),
    to.on('preview', takePreview),
    to.on('notice', takeNotice),
    to.on('learning', (state) => {
      learning.value = state.state === 'stopped' ? null : state;
    }),
    to.on('exchange-progress', (progress) => {
      exchangeProgress.value = progress;
    }),
    to.on('recorder-link', (link) => {
      recorderLink.value = link;
      if (link.state !== 'connected') return;
      // It was said while there was none to ask.
      sessionFault.value = null;
      void askForSession();
    }),
    to.on('archive-changed', ({ path }) => {
      archivePath.value = path;
      follow(null);
      archiveGeneration.value++;
      void askForSession();
    }),
  ];
  let asking: ReturnType<typeof setTimeout> | null = null;
  // The link may have failed before the page was there to be told, and an event may be lost: without knowing it
  // nobody could try again.
  const askForLink = async (): Promise<void> => {
    const toldBefore = recorderLink.value;
    const info = await ask(to, 'window.info', {});
    // What was told meanwhile is newer than the answer.
    if (info.ok && bridge === to && recorderLink.value === toldBefore)
      recorderLink.value = info.value.recorder;
  };
  // A recorder that answers is connected, whatever was told last.
  const lookAgainAtLink = async (): Promise<void> => {
    if (recorderLink.value !== null && recorderLink.value.state !== 'connected') await askForLink();
  };
  const askForSession = async (): Promise<void> => {
    if (asking !== null) clearTimeout(asking);
    asking = null;
    const answer = await ask(to, 'session.get', {});
    if (answer.ok) {
      sessionFault.value = null;
      takeSession(answer.value);
      await lookAgainAtLink();
      return;
    }
    sessionFault.value = answer.fault;
    await askForLink();
    if (bridge === to) asking = setTimeout(() => void askForSession(), ASK_AGAIN_MS);
  };
  void askForSession();
  return () => {
    if (asking !== null) clearTimeout(asking);
    for (const letGo of off) letGo();
    followed?.close();
    followed = null;
    followedPull.value = null;
    session.value = null;
    recorderLink.value = null;
    bridge = null;
  };
}

export function takeSession(next: Session): void {
  const held = session.value;
  const sameRecorder =
    held?.recorder.pid === next.recorder.pid && held.recorder.startedWallMs === next.recorder.startedWallMs;
  // A snapshot that was under way while a newer one arrived says nothing new.
  if (sameRecorder && next.revision < held.revision) return;
  sessionFault.value = null;
  session.value = next;
  archivePath.value = next.archive.path;
  notices.value = new Map(next.notices.filter((n) => !n.over).map((n) => [n.code, n]));
  if (next.readout === null) previewLines.value = [];
  if (next.second === null) secondLines.value = [];
  const pullId = next.pull?.pullId ?? null;
  if (pullId === null) {
    if (followed !== null) follow(null);
    return;
  }
  if (followed?.pullId !== pullId) follow(pullId);
  const pull = next.pull;
  if (followed === null || pull === null) return;
  if (pull.peak !== null) followed.heedPeakOfRecord(pull.peak.seq);
  const behind = followed.columns.length < pull.savedThroughSeq;
  const otherBasis = followed.basis !== null && followed.basis !== next.basis;
  if (behind || otherBasis || !sameRecorder) void followed.catchUp();
}

function follow(pullId: number | null): void {
  followed?.close();
  followed =
    pullId === null || bridge === null
      ? null
      : new FollowedPull(bridge, pullId, () => {
          readingsArrived.value++;
        });
  followedPull.value = followed;
}

function takePreview(preview: Preview): void {
  bytesWithoutLine.value = preview.bytesWithoutLine;
  takeLines(previewLines, preview.lines);
  if (preview.second !== undefined) takeLines(secondLines, preview.second.lines);
}

function takeLines(held: Signal<readonly PreviewLine[]>, come: readonly PreviewLine[]): void {
  const last = held.value.at(-1)?.line ?? -1;
  const first = come[0]?.line ?? Infinity;
  // Numbers that begin again belong to a readout that was opened anew.
  const kept = first < last && (come.at(-1)?.line ?? 0) < last ? [] : held.value;
  const fresh = kept.length === 0 ? come : come.filter((line) => line.line > last);
  if (fresh.length === 0 && kept.length === held.value.length) return;
  held.value = [...kept, ...fresh].slice(-PREVIEW_LINES_MAX);
}

function takeNotice(notice: Notice): void {
  const next = new Map(notices.value);
  if (notice.over) next.delete(notice.code);
  else next.set(notice.code, notice);
  notices.value = next;
}
