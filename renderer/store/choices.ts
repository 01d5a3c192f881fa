/** Which choices can be taken back, each in the view that it belongs to. */
import { effect } from '@preact/signals';
import { columns, draft as search, order } from '../archive/found-pulls.ts';
import { giveUpMarks, marked } from '../archive/marked-pulls.ts';
import { alignLoad, alignment, comparedTo, form, hidden, range } from '../overlay/overlay-choice.ts';
import { setDraft } from '../stations/set/set-draft.ts';
import { archivePullId, archiveView, place } from './place.ts';
import { archivePath } from './session-store.ts';
import { sound } from '../design/sound-cue.ts';
import { type PullPlan, plan, planIsOpen } from '../stations/pull/pull-plan.ts';
import {
  isReadoutChosen,
  pickedControlLines,
  pickedProfiles,
  pickedSecond,
  pickedSource,
  typedPath,
} from '../stations/readout/readout-form.ts';
import { draft as specimenDraft } from './specimen-draft.ts';
import { confidence, coverage, distribution, quantity, view } from '../trend/trend-choice.ts';
import { withOthers } from '../trend/trend-pulls.ts';
import { type ChoiceName, type NameWithin, forgetSteps, rememberSteps } from './taken-back.ts';
import { type ViewSettings, viewSettings } from './view-settings.ts';

const inArchive = (shown: 'table' | 'overlay' | 'trend') => (): boolean =>
  place.value === 'archive' && archivePullId.value === null && archiveView.value === shown;

/** How the page shows things is held by one signal: which of it was changed. */
const changedSetting: NameWithin = (before, after) => {
  const [was, is] = [before as ViewSettings, after as ViewSettings];
  return (Object.keys(is) as (keyof ViewSettings)[]).find((key) => was[key] !== is[key]) ?? 'units';
};

const PLAN_NAMES: Readonly<Record<keyof PullPlan, ChoiceName>> = {
  startByHand: 'startRule',
  threshold: 'startRule',
  breakByHand: 'breakRule',
  percentOfPeak: 'breakRule',
  tailByHand: 'tailRule',
  tailSeconds: 'tailRule',
  load: 'plannedAxes',
  extension: 'plannedAxes',
  operator: 'by',
  speedMethod: 'speedMethod',
};
const changedRule: NameWithin = (before, after) => {
  const [was, is] = [before as PullPlan, after as PullPlan];
  return PLAN_NAMES[
    (Object.keys(PLAN_NAMES) as (keyof PullPlan)[]).find((key) => was[key] !== is[key]) ?? 'load'
  ];
};

/** Remembers them from now on. Returns what stops it. */
export function followChoices(): () => void {
  let { specimenId } = specimenDraft.peek();
  let archive = archivePath.peek();
  const ends = [
    // Units, ground, language, size of the digits: seen wherever one is.
    rememberSteps({ units: viewSettings }, () => true, { within: changedSetting }),
    rememberSteps({ sound }, () => true),
    rememberSteps({ search, columns, order, marked }, inArchive('table')),
    rememberSteps({ form, alignment, alignLoad, comparedTo, hidden, range }, inArchive('overlay')),
    rememberSteps({ quantity, view, distribution, coverage, confidence, withOthers }, inArchive('trend')),
    rememberSteps({ setForm: setDraft }, () => place.value === 'set'),
    // While it is open to be changed only: a pull that runs goes by the plan that it was made ready with.
    rememberSteps({ startRule: plan }, () => place.value === 'pull' && planIsOpen.value, {
      within: changedRule,
    }),
    rememberSteps({ specimen: specimenDraft }, () => place.value === 'specimen'),
    rememberSteps(
      {
        port: pickedSource,
        portPath: typedPath,
        profile: pickedProfiles,
        controlLines: pickedControlLines,
        secondInstrument: pickedSecond,
      },
      () => place.value === 'readout' && isReadoutChosen.value,
    ),
    // A specimen that is kept, or another one, is not turned into what was typed before.
    effect(() => {
      if (specimenDraft.value.specimenId !== specimenId) forgetSteps(specimenDraft);
      specimenId = specimenDraft.value.specimenId;
    }),
    effect(() => {
      if (archivePath.value !== archive) giveUpMarks();
      archive = archivePath.value;
    }),
  ];
  return () => {
    for (const end of ends) end();
  };
}
