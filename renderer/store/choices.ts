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
import { forgetSteps, rememberSteps } from './taken-back.ts';
import { viewSettings } from './view-settings.ts';

const inArchive = (shown: 'table' | 'overlay' | 'trend') => (): boolean =>
  place.value === 'archive' && archivePullId.value === null && archiveView.value === shown;

/** Remembers them from now on. Returns what stops it. */
export function followChoices(): () => void {
  let { specimenId } = specimenDraft.peek();
  const ends = [
    // Units, ground, language, size of the digits: seen wherever one is.
    rememberSteps([viewSettings], () => true),
    rememberSteps([search, columns, order, marked], inArchive('table')),
    rememberSteps([form, alignment, alignLoad, comparedTo, hidden, range], inArchive('overlay')),
    rememberSteps([quantity, view, distribution, coverage, confidence, withOthers], inArchive('trend')),
    rememberSteps([setDraft], () => place.value === 'set'),
    rememberSteps([specimenDraft], () => place.value === 'specimen'),
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
