/** What each station knows already, in a few words, and which one needs a person next. */
import { standingNote } from '../../core/pull/standing-note.ts';
import { SESSION_STATES, type SessionState } from '../../core/contract/session.ts';
import { fixed, quantityText } from '../numbers/format.ts';
import { type Place, type Station, place } from '../store/place.ts';
import { heldOpen, learning, session, tailIsOver } from '../store/session-store.ts';
import { draft, draftArea, draftIsBlank, draftIsKept } from '../store/specimen-draft.ts';
import { language, units } from '../store/view-settings.ts';
import { words } from '../words/words.ts';
import { endedPull, typedPullId } from './opened-pull.ts';
import { loadUnit } from '../numbers/display-unit.ts';
import { convert } from '../../core/quantity/units.ts';
import { placesOf } from '../numbers/format.ts';
import { certifiedPull, numberSeen } from './certificate/certificate-choice.ts';
import { carried, openedSet } from './set/open-set.ts';
import { nextStep } from './set/next-step.ts';
import { shownValue } from './result/result-list.tsx';

export interface Known {
  readonly text: string;
  /** Its part is done. */
  readonly done: boolean;
}

export function knownAt(station: Station): Known {
  switch (station) {
    case 'set':
      return knownOfSet();
    case 'specimen':
      return knownOfSpecimen();
    case 'readout':
      return knownOfReadout();
    case 'pull':
      return knownOfPull();
    case 'fracture':
      return knownOfFracture();
    case 'result':
      return knownOfResult();
    case 'certificate':
      return knownOfCertificate();
  }
}

/**
 * The one station that a person is needed at next. While readings are being kept that is the pull, whatever else is open;
 * where the order is free, it is the one somebody has gone to.
 */
export function stationOnCall(): Station {
  const here = place.value;
  const state = session.value?.state ?? 'closed';
  const pull = session.value?.pull ?? null;
  // Load behind a marked break asks for a decision there; else the tail decides when the next station is called for.
  const isAfterPull =
    state === 'ended' || typedPullId.value !== null || (tailIsOver.value && pull?.loadIsBack !== true);
  if (!isAfterPull && ['ready', 'pulling', 'broken', 'stopped'].includes(state))
    // A tail runs by itself, and a note of the fracture may end it.
    return here === 'fracture' && heldOpen.value && pull?.loadIsBack !== true ? 'fracture' : 'pull';
  if (here === 'specimen' && !draftIsKept.value && !draftIsBlank.value) return 'specimen';
  return isAfterPull ? onCallAfterPull(here) : onCallBeforePull(here, state);
}

function onCallAfterPull(here: Place): Station {
  if (!knownOfFracture().done) return 'fracture';
  if (here === 'fracture' || here === 'pull') return 'result';
  if (isOfOnePull(here)) return 'certificate';
  const forSet = setOnCall();
  // The certificate of a set is made from the set, where all its specimens are seen once more.
  if (forSet !== null) return here === 'result' ? 'set' : forSet;
  // Whoever has seen the result may go on to a certificate, a set, or the next specimen.
  if (here === 'set') return 'set';
  return here === 'result' || here === 'specimen' || here === 'certificate' ? 'specimen' : 'result';
}

function onCallBeforePull(here: Place, state: SessionState): Station {
  const forSet = setOnCall();
  // Its lines are watched through the open port while its numbers are named.
  const isLearnt = here === 'readout' && learning.value?.state === 'done';
  const isUsed = here === 'specimen' || here === 'readout' || here === 'pull';
  if (isOfOnePull(here)) return 'certificate';
  if (isLearnt) return 'readout';
  if (draftIsKept.value && (forSet === null || isUsed)) return state === 'closed' ? 'readout' : 'pull';
  if (here === 'readout' && state === 'closed') return 'readout';
  if (forSet !== null) return forSet;
  return here === 'set' && openedSet.value === null ? 'set' : 'specimen';
}

/** Somebody is at the certificate of one pull, and it isn't issued yet. */
function isOfOnePull(here: Place): boolean {
  if (here !== 'certificate') return false;
  const hasMembers = (openedSet.value?.judged.members.length ?? 0) > 0;
  const pull = endedPull.value;
  const evaluated = pull === null || pull.evaluation.value === null ? null : pull.pullId;
  const pullId = certifiedPull.value ?? (hasMembers ? null : evaluated);
  return pullId !== null && (numberSeen({ pullId }) ?? null) === null;
}

/** With a set open its next step is on call, unless it lies in the station after the next anyway. */
function setOnCall(): Station | null {
  const opened = openedSet.value;
  if (opened === null || carried.value !== null) return null;
  const step = nextStep(opened);
  // Behind its certificate there is the next set.
  if (step.kind === 'certificate') return knownOfCertificate().done ? 'set' : 'certificate';
  const underWay = draftIsKept.value && step.kind === 'pull' && step.member.specimenName === draft.value.id;
  return underWay && session.value?.state !== 'ended' ? null : 'set';
}

function knownOfSet(): Known {
  const text = words.value.set.known;
  const opened = openedSet.value;
  if (opened === null) return { text: text.noSet, done: false };
  const { judged, required } = opened.judged.counts;
  const progress =
    required === null
      ? text.judgedOnly(String(judged))
      : text.judged(String(judged), String(Math.max(required, opened.judged.counts.specimens)));
  return { text: `${progress} · ${opened.kept.set.form.name}`, done: opened.judged.outcome !== 'undecided' };
}

function knownOfCertificate(): Known {
  const text = words.value.set.known;
  const opened = openedSet.value;
  const pull = endedPull.value;
  if (opened === null) {
    if (pull === null || pull.evaluation.value === null) return { text: text.noCertificate, done: false };
    const number = numberSeen({ pullId: pull.pullId }) ?? null;
    return number === null ? { text: text.certificateReady, done: false } : { text: number, done: true };
  }
  const isDecided = opened.judged.outcome !== 'undecided';
  const seen = numberSeen({ setId: opened.kept.setId });
  const number = seen === undefined ? opened.kept.certificate : seen;
  if (number !== null) return { text: number, done: isDecided };
  return { text: isDecided ? text.certificateReady : text.certificateOfUndecided, done: false };
}

function knownOfSpecimen(): Known {
  const known = words.value.known;
  const name = session.value?.pull?.specimenName;
  if (name !== undefined && session.value?.state !== 'listening') return { text: name, done: true };
  const d = draft.value;
  if (draftIsKept.value) {
    const area = draftArea.value;
    const section =
      area?.ok === true ? ` · ${quantityText(area.area.areaMm2, 'mm²', units.value, language.value)}` : '';
    return { text: `${d.id}${section}`, done: true };
  }
  return { text: d.id.trim() === '' ? known.noSpecimen : `${d.id} · ${known.draft}`, done: false };
}

function knownOfReadout(): Known {
  const known = words.value.known;
  const now = session.value;
  const readout = now?.readout ?? null;
  if (now === null || readout === null) return { text: known.noReadout, done: false };
  if (readout.link === 'lost') return { text: known.linkLost, done: false };
  if (!now.signal.fresh)
    return { text: known.quiet(fixed(now.signal.silentMs / 1000, 0, language.value)), done: false };
  return { text: known.readingsPerS(fixed(readout.readingsPerS, 0, language.value)), done: true };
}

function knownOfPull(): Known {
  const text = words.value;
  const now = session.value;
  const state = now?.state ?? 'closed';
  const typed = endedPull.value?.kept.value?.typed ?? null;
  if (typed !== null) return { text: `${text.typed.mark}: ${typed.load}`, done: true };
  if (state === 'closed' || state === 'listening') return { text: text.known.notReady, done: false };
  const peak = now?.pull?.peak ?? null;
  if (state === 'ended' && peak !== null) {
    const unit = loadUnit(Math.max(peak.forceN, now?.pull?.plannedForceN ?? 0), units.value);
    return {
      text: text.known.peak(
        `${fixed(convert(peak.forceN, 'N', unit), placesOf(unit), language.value)} ${unit}`,
      ),
      done: true,
    };
  }
  return { text: text.states[state], done: SESSION_STATES.indexOf(state) >= SESSION_STATES.indexOf('ended') };
}

function knownOfFracture(): Known {
  const text = words.value;
  const kept = endedPull.value?.kept.value ?? null;
  if (kept === null) return { text: text.known.afterPull, done: false };
  const note = standingNote(kept.fractureNotes);
  return note === null
    ? { text: text.known.placeNotNoted, done: false }
    : { text: text.fracture.places[note.note.place], done: true };
}

function knownOfResult(): Known {
  const text = words.value;
  const evaluation = endedPull.value?.evaluation.value ?? null;
  if (evaluation === null) return { text: text.known.noResult, done: false };
  const strength =
    evaluation.results.find((r) => r.symbol === 'Rm') ?? evaluation.results.find((r) => r.symbol === 'Fm');
  if (strength === undefined) return { text: text.known.evaluated, done: true };
  const shown = shownValue(strength, units.value);
  return { text: `${strength.symbol} ${shown.text} ${shown.unit}`, done: true };
}
