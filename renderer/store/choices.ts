/** Which choices can be taken back, each in the view that it belongs to. */
import { effect } from '@preact/signals';
import { columns, draft as search, order } from '../archive/found-pulls.ts';
import { marked } from '../archive/marked-pulls.ts';
import { alignLoad, alignment, comparedTo, form, hidden, range } from '../overlay/overlay-choice.ts';
import { setDraft } from '../stations/set/set-draft.ts';
import { archivePullId, archiveView, place } from './place.ts';
import { draft as specimenDraft } from './specimen-draft.ts';
import { confidence, coverage, distribution, quantity, view } from '../trend/trend-choice.ts';
import { withOthers } from '../trend/trend-pulls.ts';
import { type NameWithin, forgetSteps, rememberSteps } from './taken-back.ts';
import { type ViewSettings, viewSettings } from './view-settings.ts';

const inArchive = (shown: 'table' | 'overlay' | 'trend') => (): boolean =>
  place.value === 'archive' && archivePullId.value === null && archiveView.value === shown;

/** How the page shows things is held by one signal: which of it was changed. */
const changedSetting: NameWithin = (before, after) => {
  const [was, is] = [before as ViewSettings, after as ViewSettings];
  return (Object.keys(is) as (keyof ViewSettings)[]).find((key) => was[key] !== is[key]) ?? 'units';
};

/** Remembers them from now on. Returns what stops it. */
export function followChoices(): () => void {
  let { specimenId } = specimenDraft.peek();
  const ends = [
    // Units, ground, language, size of the digits: seen wherever one is.
    rememberSteps({ units: viewSettings }, () => true, undefined, changedSetting),
    rememberSteps({ search, columns, order, marked }, inArchive('table')),
    rememberSteps({ form, alignment, alignLoad, comparedTo, hidden, range }, inArchive('overlay')),
    rememberSteps({ quantity, view, distribution, coverage, confidence, withOthers }, inArchive('trend')),
    rememberSteps({ setForm: setDraft }, () => place.value === 'set'),
    rememberSteps({ specimen: specimenDraft }, () => place.value === 'specimen'),
    // A specimen that is kept, or another one, is not turned into what was typed before.
    effect(() => {
      if (specimenDraft.value.specimenId !== specimenId) forgetSteps(specimenDraft);
      specimenId = specimenDraft.value.specimenId;
    }),
  ];
  return () => {
    for (const end of ends) end();
  };
}
