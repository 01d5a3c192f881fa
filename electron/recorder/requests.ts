/**
 * What each request does: one entry a request, types from the contract. What no window asks at its start and brings much with
 * it (the database, exports, certificates) is read when it is first asked for.
 */
import { columnsOf } from '../../core/pull/reading-columns.ts';
import {
  type Answer,
  type ReplyOf,
  type RequestName,
  type RequestOf,
  contract,
} from '../../core/contract/index.ts';
import type { KeptPull, PullLine } from '../../core/contract/pull-requests.ts';
import { needsVerdicts } from '../../core/contract/search-requests.ts';
import { malformedRequest } from '../../core/contract/malformed-request.ts';
import { METHOD_VERSION } from '../../core/results/evaluation.ts';
import { shippedProfiles } from '../../drivers/profiles.ts';
import { DEFAULT_SCENARIO, shippedScenarios } from '../../drivers/simulated-frame/scenarios.ts';
import { listPorts } from '../../drivers/serial/list-ports.ts';
import { toldPeak } from '../../core/pull/pull-state.ts';
import type { PullAct } from '../../core/pull/take-act.ts';
import { ARCHIVE_LARGE_BYTES } from '../../core/limits.ts';
import { discardPart } from '../../core/archive/discard-part.ts';
import { ownRulePacks, packsWithRulesFolder, readRulesFolder } from '../rules/rules-folder.ts';
import { blankRunOfPull } from './blank-run-pull.ts';
import { beforeStart, dayOf, readoutAsked } from './instruments-of-pull.ts';
import { judgeSets, judgedAndFound, judgedLines } from './find-pulls.ts';
import { judgedReply } from './judged-set.ts';
import { judgedAgain, setJudgedAgain } from './judged-again.ts';
import { evaluatePull, keepEvaluation } from './kept-evaluations.ts';
import type { Recorder } from './recorder.ts';
import { programFault } from './request-faults.ts';
import { RequestRefused, faultOf } from './request-refused.ts';
import { runSelfCheckAside } from './run-self-check.ts';
import { savePerson } from './people.ts';
import { saveSpecimen } from './save-specimen.ts';
import { refuseAgedZero } from './take-zero.ts';
import { typePull } from './type-pull.ts';
import { utcOffsetMinutes } from './utc-offset.ts';

type Handlers = {
  readonly [N in RequestName]: (
    recorder: Recorder,
    request: RequestOf<N>,
  ) => Promise<ReplyOf<N>> | ReplyOf<N>;
};

const stepBy =
  (act: PullAct) =>
  async (recorder: Recorder): Promise<ReplyOf<'pull.start'>> => ({ state: await recorder.act(act) });

const backups = () => import('./take-backup.ts');
const exported = () => import('./export-pull.ts');
const years = () => import('./split-years.ts');
const elsewhere = () => import('./read-elsewhere.ts');
const exportedResults = () => import('./export-results.ts');
const certificates = () => import('./issue-certificate.ts');
const signatures = () => import('./sign-certificate.ts');

const handlers: Handlers = {
  'program.info': (recorder) => ({
    programVersion: recorder.options.programVersion,
    pid: process.pid,
    nodeVersion: process.version,
    platform: process.platform,
    startedWallMs: recorder.startedWallMs,
    archivePath: recorder.options.archivePath,
    archiveFault: recorder.archiveFault,
  }),
  'port.list': async () => {
    try {
      return { ports: [...(await listPorts())], note: null };
    } catch (error) {
      return {
        ports: [],
        note: `The ports of this computer could not be listed (${error instanceof Error ? error.message.slice(0, 300) : 'unknown reason'}); type the path of the port.`,
      };
    }
  },
  'readout.profiles': async (recorder) => ({
    profiles: [
      ...shippedProfiles().map((profile) => ({ profile, builtIn: true, savedWallMs: null })),
      ...(await recorder.archive.call('profiles')).map((kept) => ({ ...kept, builtIn: false })),
    ],
  }),
  'readout.scenarios': () => ({ scenarios: scenarioLines() }),
  'readout.save-profile': async (recorder, { profile }) => {
    await recorder.archive.call('saveProfile', profile);
    return {};
  },
  'readout.open': async (recorder, opening) => {
    await recorder.openReadout(opening);
    return { words: recorder.readoutWords };
  },
  'readout.close': async (recorder) => {
    await recorder.closeReadout();
    return {};
  },
  'readout.learn-port': async (recorder, asked) => {
    recorder.learning.refuseWhileFromFile();
    await recorder.learnFromPort(asked);
    return {};
  },
  'readout.learn-file': (recorder, { file }) => recorder.learning.fromFile(file),
  'readout.stop-learning': async (recorder) => {
    recorder.learning.stopFile();
    await recorder.learning.stop();
    return {};
  },
  'readout.learning': (recorder) => ({ learning: recorder.learning.state }),
  'readout.preview': (recorder) => recorder.preview(),
  'specimen.save': saveSpecimen,
  'specimen.pulls': async (recorder, { specimenId }) => ({
    pulls: await recorder.archive.call('pullsOfSpecimen', specimenId),
  }),
  'specimen.list': (recorder, page) => recorder.archive.call('listSpecimens', page),
  'specimen.get': (recorder, { specimenId }) => recorder.archive.call('getSpecimen', specimenId),
  'session.get': (recorder) => recorder.session(),
  'pull.ready': async (recorder, request) => {
    if (recorder.archive.isAtLongWork)
      throw new RequestRefused(
        'archive-busy',
        'The archive is being checked, a file imported or another archive taken in, and a record could not be kept meanwhile; stop that in the archive, or wait for it, and make ready again.',
      );
    const pullId = await recorder.makeReady(request);
    return { pullId, state: recorder.state };
  },
  'pull.start': stepBy('start'),
  'pull.mark-break': stepBy('mark-break'),
  'pull.undo-break': stepBy('undo-break'),
  'pull.stop': stepBy('stop'),
  'pull.continue': stepBy('continue'),
  'pull.close': stepBy('close'),
  'pull.put-away': async (recorder) => ({ state: await recorder.putAway() }),
  'pull.zero': (recorder, { keys, sendCommand }) => {
    refuseAgedZero(recorder.session(), keys);
    return recorder.takeZero(keys, sendCommand ?? false);
  },
  'pull.readings': readings,
  'pull.outline': async (recorder, { pullId }) => ({
    outline: await recorder.archive.call('outlineOf', pullId),
  }),
  'pull.raw': async (recorder, { pullId, fromChunk, count, instrument }) => {
    await flushed(recorder, pullId);
    const instruments = (await recorder.archive.call('getPull', pullId)).second === null ? 1 : 2;
    const { total, chunks: all } = await recorder.archive.call('readRaw', pullId, fromChunk, count);
    const chunks = all.filter(
      ({ opening }) => instrument === undefined || opening % instruments === instrument,
    );
    return {
      total,
      instrument: Uint8Array.from(chunks, ({ opening }) => opening % instruments),
      elapsedUs: Float64Array.from(chunks, (c) => c.elapsedUs),
      byteCount: Int32Array.from(chunks, (c) => c.bytes.length),
      bytes: new Uint8Array(Buffer.concat(chunks.map((c) => c.bytes))),
    };
  },
  'pull.note-fracture': async (recorder, request) => {
    const fractureNoteId = await recorder.archive.call('noteFracture', request);
    await recorder.fractureNoted(request.pullId);
    return { fractureNoteId };
  },
  'pull.evaluate': async (recorder, asked) => {
    await flushed(recorder, asked.pullId);
    return evaluatePull(recorder, asked);
  },
  'evaluation.keep': keepEvaluation,
  'evaluation.judge': judgedAgain,
  'evaluation.judge-set': setJudgedAgain,
  'evaluation.known': async (recorder, { pullIds }) => ({
    items: (await recorder.archive.call('knownValues', pullIds)).map(({ pullId, values }) => ({
      pullId,
      values: [...values],
    })),
  }),
  'evaluation.stated': (recorder, { pullId }) => recorder.archive.call('statedOf', pullId),
  'evaluation.blank-run': (recorder, { pullId }) => blankRunOfPull(recorder, pullId),
  'evaluation.history': async (recorder, { pullId }) => ({
    evaluations: await recorder.archive.call('evaluationHistory', pullId),
  }),
  'pull.state-day': async (recorder, given) => ({
    statedDayId: await recorder.archive.call('stateDay', given),
  }),
  'pull.void': async (recorder, given) => {
    await recorder.archive.call('voidPull', { ...given, utcOffsetMinutes: utcOffsetMinutes(Date.now()) });
    return {};
  },
  'pull.type': typePull,
  'instrument.save': async (recorder, given) => ({
    instrumentId: await recorder.archive.call('saveInstrument', given),
  }),
  'instrument.list': async (recorder) => {
    const on = dayOf(Date.now());
    return { on, instruments: await recorder.archive.call('listInstruments', on) };
  },
  'instrument.get': (recorder, { instrumentId }) =>
    recorder.archive.call('instrumentHistory', instrumentId, dayOf(Date.now())),
  'instrument.calibrate': async (recorder, given) => ({
    calibrationId: await recorder.archive.call('keepCalibration', { ...given, today: dayOf(Date.now()) }),
  }),
  'instrument.before-start': (recorder, { instruments, ...asked }) =>
    beforeStart(recorder.archive, {
      instruments,
      ...readoutAsked(recorder.openReadoutFacts, asked),
      wallMs: Date.now(),
    }),
  'people.save': savePerson,
  'people.list': async (recorder) => ({
    people: (await recorder.archive.call('people')).map(({ person }) => person),
  }),
  'certificate.sign': async (recorder, asked) => (await signatures()).signCertificate(recorder, asked),
  'certificate.signatures': async (recorder, { number }) => ({
    signatures: await recorder.archive.call('signaturesOf', number),
  }),
  'photo.add': async (recorder, given) => ({ photo: await recorder.archive.call('addPhoto', given) }),
  'photo.withdraw': async (recorder, given) => {
    await recorder.archive.call('withdrawPhoto', given);
    return {};
  },
  'photo.list': async (recorder, { pullId }) => ({ photos: await recorder.archive.call('photosOf', pullId) }),
  'photo.get': (recorder, { photoId }) => recorder.archive.call('getPhoto', photoId),
  'pull.specimen': (recorder, { pullId }) => recorder.archive.call('specimenOfPull', pullId),
  'pull.get': async (recorder, { pullId }) => {
    await flushed(recorder, pullId);
    return asItStands(recorder, await recorder.archive.call('getPull', pullId));
  },
  'pull.list': async (recorder, page) => {
    const { items, nextCursor } = await recorder.archive.call('listPulls', page);
    return { items: items.map((line) => ({ ...line, ...openFacts(recorder, line.pullId) })), nextCursor };
  },
  'archive.search': (recorder, page) => recorder.archive.call('searchPulls', page),
  'archive.found': (recorder, asked) => recorder.archive.call('foundPullIds', asked),
  'archive.index': async (recorder) => ({ index: await recorder.archive.call('indexProgress') }),
  'archive.lines': async (recorder, asked) => ({ items: await judgedLines(recorder, asked) }),
  'archive.thumbnails': async (recorder, { pullIds }) => ({
    curves: await recorder.archive.call('thumbnailsOf', pullIds),
  }),
  'archive.judge-sets': judgeSets,
  'archive.saved-searches': async (recorder) => ({
    searches: await recorder.archive.call('savedSearches'),
  }),
  'archive.save-search': async (recorder, search) => {
    await recorder.archive.call('saveSearch', search);
    return {};
  },
  'archive.forget-search': async (recorder, { name }) => {
    await recorder.archive.call('forgetSearch', name);
    return {};
  },
  'archive.import': async (recorder, given) => {
    refuseWhileRecording(recorder, 'imported into');
    const { pullId, report, sha256, notes } = await recorder.archive.callLong('importFile', given);
    return { pullId, rows: report.rows, misfits: report.misfits.count, notes, sha256 };
  },
  'archive.preview-import': (recorder, { file, choices }) =>
    recorder.archive.call('previewImport', file, choices),
  'pull.preview-plan': (recorder, { pullId, choices }) =>
    recorder.archive.call('previewPlan', pullId, choices),
  'archive.merge': async (recorder, { from, write }) => {
    refuseWhileRecording(recorder, 'merged');
    await (await elsewhere()).letGoElsewhere(recorder, from);
    return recorder.archive.callLong('mergeFrom', from, write);
  },
  'archive.stop': (recorder) => {
    recorder.stopLongWork();
    return {};
  },
  'archive.export-results': (recorder, asked) => {
    refuseWhileRecording(recorder, 'exported from');
    return recorder.watched(async (watch) => (await exportedResults()).exportResults(recorder, asked, watch));
  },
  'archive.results-table': (recorder, asked) => {
    refuseWhileRecording(recorder, 'exported from');
    return recorder.watched(async (watch) =>
      (await exportedResults()).resultsForPaper(recorder, asked, watch),
    );
  },
  'archive.read-elsewhere': async (recorder, asked) => {
    refuseWhileRecording(recorder, 'left for another one');
    return (await elsewhere()).readElsewhere(recorder, asked, answerRequest);
  },
  'archive.search-elsewhere': async (recorder, asked) => {
    refuseWhileRecording(recorder, 'left for another one');
    if (needsVerdicts(asked)) return (await elsewhere()).searchVerdictsElsewhere(recorder, asked);
    await (await elsewhere()).letGoElsewhere(recorder, asked.file);
    return recorder.archive.call('searchElsewhere', asked);
  },
  'archive.plan-restore': async (recorder, { backup }) => {
    await (await elsewhere()).letGoElsewhere(recorder, backup);
    return recorder.archive.call('planRestore', backup);
  },
  'archive.restore': async (recorder, { backup }) => {
    refuseWhileRecording(recorder, 'restored');
    await (await elsewhere()).letGoElsewhere(recorder, backup);
    return recorder.watched(async (watch) => {
      const copy = await recorder.copyForRestore(backup, watch);
      try {
        // A record may have been begun since.
        refuseWhileRecording(recorder, 'restored');
      } catch (error) {
        discardPart(copy);
        throw error;
      }
      return recorder.restore(copy);
    });
  },
  'archive.plan-split': async (recorder) => {
    refuseWhileRecording(recorder, 'looked through');
    return {
      ...(await recorder.archive.call('planSplit')),
      largeBytes: recorder.options.largeBytes ?? ARCHIVE_LARGE_BYTES,
    };
  },
  'archive.split': (recorder, { folder }) => {
    refuseWhileRecording(recorder, 'split');
    return recorder.watched(async (watch) => (await years()).splitYears(recorder, folder, watch));
  },
  'archive.backup-into': (recorder, { folder, ages }) =>
    recorder.watched(async (watch) =>
      (await backups()).takeBackupInto(recorder.archive, folder, ages, watch),
    ),
  'archive.info': (recorder) => recorder.archive.call('info'),
  'archive.check': async (recorder, { pullId }) => {
    refuseWhileRecording(recorder, 'checked');
    return recorder.archive.callLong('check', pullId);
  },
  'archive.backup': (recorder, { to }) =>
    recorder.watched(async (watch) => (await backups()).takeBackup(recorder.archive, to, watch)),
  'archive.export': async (recorder, asked) => {
    refuseWhileRecording(recorder, 'exported from');
    return (await exported()).exportPull(recorder, asked);
  },
  'rules.folder': async (_recorder, { rulesFolder }) => ownRulePacks(await readRulesFolder(rulesFolder)),
  'set.save': async (recorder, { rulesFolder, ...save }) => {
    const { fault, packs } = await readRulesFolder(rulesFolder);
    if (fault !== null) throw new RequestRefused('rules-folder-unreadable', fault, 'rulesFolder');
    return { setId: await recorder.archive.call('saveSet', save, packs) };
  },
  'set.list': (recorder, page) => recorder.archive.call('listSets', page),
  'set.get': async (recorder, { setId }) => (await recorder.archive.call('getSet', setId)).kept,
  'set.join': async (recorder, request) => ({
    setMemberId: await recorder.archive.call('joinSet', request),
  }),
  'set.void-member': async (recorder, request) => {
    await recorder.archive.call('voidMember', request);
    return {};
  },
  'set.override': async (recorder, request) => {
    const at = utcOffsetMinutes(Date.now());
    await recorder.archive.call('overrideMember', { ...request, utcOffsetMinutes: at });
    return {};
  },
  'set.judge': async (recorder, { setId, rulesFolder }) =>
    judgedReply(await judgedAndFound(recorder, setId), await packsWithRulesFolder(rulesFolder)),
  'set.of-specimen': async (recorder, asked) => ({
    places: await recorder.archive.call('membershipsOf', asked),
    pullIds:
      asked.specimenId === undefined ? [] : await recorder.archive.call('pullsThatCount', asked.specimenId),
  }),
  'certificate.preview': async (recorder, asked) =>
    (await certificates()).previewCertificate(recorder, asked),
  'certificate.issue': async (recorder, asked) => (await certificates()).issueCertificate(recorder, asked),
  'laboratory.save': async (recorder, given) => {
    await recorder.archive.call('saveLaboratory', given);
    return {};
  },
  'laboratory.get': (recorder) => recorder.archive.call('laboratory'),
  'program.self-check': async (recorder) => {
    if (recorder.isRecording)
      throw new RequestRefused(
        'pull-open',
        'While a pull is being recorded the processor belongs to the record; run the self-check after it is closed.',
      );
    const { lines, agreeing, failing } = await runSelfCheckAside();
    return {
      programVersion: recorder.options.programVersion,
      method: METHOD_VERSION,
      platform: `${process.platform} ${process.arch}, ${process.version}`,
      agreeing,
      failing,
      lines: [...lines],
    };
  },
  'archive.set-aside': (recorder) => recorder.setAside(),
  'archive.retry': async (recorder) => {
    await recorder.openArchive();
    const { archiveFault } = recorder;
    if (archiveFault !== null)
      throw new RequestRefused(archiveFault.code, archiveFault.sentence, undefined, archiveFault.detail);
    return {};
  },
};

/** The one to be offered first stands first. */
function scenarioLines(): ReplyOf<'readout.scenarios'>['scenarios'] {
  return [...shippedScenarios()]
    .sort((a, b) => Number(b.name === DEFAULT_SCENARIO) - Number(a.name === DEFAULT_SCENARIO))
    .map(({ name, title, notes, specimen, profile }) => ({
      name,
      title,
      notes: notes ?? null,
      specimen,
      profileName: profile,
    }));
}

/** Checks what was asked and does it. Answers always; a bug is told as a fault too, and logged with its stack. */
export async function answerRequest<N extends RequestName>(
  recorder: Recorder,
  name: N,
  payload: unknown,
): Promise<Answer<ReplyOf<N>>> {
  const checked = contract[name].request.safeParse(payload);
  if (!checked.success)
    return { ok: false, fault: malformedRequest(name, checked.error, contract[name].request, payload) };
  try {
    return { ok: true, value: await handlers[name](recorder, checked.data as RequestOf<N>) };
  } catch (error) {
    const fault = faultOf(error);
    if (fault === null) recorder.bug(error);
    return { ok: false, fault: fault ?? programFault(name, error) };
  }
}

/** What has been read of this pull is in the archive as far as it can be. */
async function flushed(recorder: Recorder, pullId: number): Promise<void> {
  await recorder.recordOf(pullId)?.committer.flush();
}

/** What stands in the archive only when the record has ended, of one that is open. */
function openFacts(recorder: Recorder, pullId: number): Partial<Pick<PullLine, 'state' | 'peakForceN'>> {
  const { state } = recorder.recordOf(pullId) ?? {};
  return state === undefined ? {} : { state: state.state, peakForceN: toldPeak(state)?.forceN ?? null };
}

function asItStands(recorder: Recorder, kept: KeptPull): KeptPull {
  const open = recorder.recordOf(kept.pullId);
  if (open === null || kept.state === 'ended') return kept;
  return {
    ...kept,
    ...openFacts(recorder, kept.pullId),
    durationUs: open.state.lastElapsedUs,
    misfitCount: { ...open.misfitCount },
  };
}

/** From the archive; where that can't be written to, the newest from memory. */
async function readings(
  recorder: Recorder,
  { pullId, fromSeq, count, shown = false }: RequestOf<'pull.readings'>,
): Promise<ReplyOf<'pull.readings'>> {
  await flushed(recorder, pullId);
  const kept = await recorder.archive.call('readColumns', { pullId, fromSeq, count, shown });
  const open = recorder.recordOf(pullId);
  if (open === null || kept.columns.count > 0 || fromSeq >= open.state.nextSeq)
    return { pullId, basis: recorder.basis, total: open?.state.nextSeq ?? kept.total, columns: kept.columns };
  const held = open.view.from(fromSeq);
  return {
    pullId,
    basis: recorder.basis,
    total: open.state.nextSeq,
    columns: columnsOf(held.readings.slice(0, count), open.converters, { firstSeq: held.firstSeq, shown }),
  };
}

/** Long work in the archive's thread would hold up the commits of a recording. */
function refuseWhileRecording(recorder: Recorder, what: string): void {
  if (recorder.isRecording)
    throw new RequestRefused(
      'pull-open',
      `While a pull is being recorded the archive is not ${what}; close the record first.`,
    );
}
