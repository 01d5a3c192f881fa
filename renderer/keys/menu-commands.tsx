/** What the window's menu means on the page. */
import { signal } from '@preact/signals';
import type { Bridge } from '../../core/contract/bridge.ts';
import type { MenuCommand } from '../../core/contract/window-requests.ts';
import { backUp } from '../archive/archive-care.tsx';
import { Cautions } from '../design/cautions.tsx';
import { drawnAtOnce } from '../design/drawn-at-once.ts';
import { say } from '../design/said.tsx';
import { guideShown } from '../guide/guide-shown.ts';
import { openExchange } from '../exchange/exchange-view.ts';
import { openPullExport } from '../exchange/pull-export.ts';
import { doingShown } from '../doing/doing-shown.ts';
import { endedPull } from '../stations/opened-pull.ts';
import { nextSpecimen } from '../stations/pull/pull-acts.ts';
import { archivePullId, goTo, place } from '../store/place.ts';
import { recording, request, session } from '../store/session-store.ts';
import { beginTour } from '../tour/tour.ts';
import { told } from '../words/told.ts';
import { words } from '../words/words.ts';
import { keysShown } from './keys-sheet.tsx';
import { SheetDialog } from './sheet-dialog.tsx';

const sheet = signal<'cautions' | 'about' | null>(null);

/** Follows the menu from now on. Returns what stops it. */
export function followMenu(bridge: Bridge): () => void {
  return bridge.on('menu-command', ({ command }) => void MEANING[command]());
}

/** What a command of the menu does, for whatever else offers it. */
export const menuMeans = (command: MenuCommand) => (): void | Promise<void> => MEANING[command]();

/** Asks for another archive and goes over to it. */
export async function changeArchive(how: 'open' | 'new'): Promise<void> {
  const answer = await request('window.change-archive', { how });
  if (!answer.ok) say(told(answer.fault.sentence));
}

const MEANING: Readonly<Record<MenuCommand, () => void | Promise<void>>> = {
  'new-specimen': () => {
    // While a pull is recorded the draft belongs to it; the sheet is only shown.
    if (recording.value) goTo('specimen');
    else return nextSpecimen();
  },
  'open-archive-list': () => {
    archivePullId.value = null;
    goTo('archive');
  },
  instruments: () => goTo('instruments'),
  people: () => goTo('people'),
  'export-pull': async () => {
    const pullId = place.value === 'archive' ? archivePullId.value : (endedPull.value?.pullId ?? null);
    if (pullId === null) {
      goTo('archive');
      say(words.value.fracture.noPull);
      return;
    }
    await openPullExport(pullId);
  },
  'check-archive': () => {
    drawnAtOnce(() => {
      archivePullId.value = null;
      goTo('archive');
    });
    document.getElementById('check-archive')?.click();
  },
  'back-up-archive': async () => {
    archivePullId.value = null;
    goTo('archive');
    await backUp();
  },
  'import-file': () => openExchange('import'),
  'merge-archive': () => openExchange('merge'),
  'restore-backup': () => openExchange('restore'),
  'export-results': () => openExchange('results'),
  'what-to-do': () => {
    doingShown.value = true;
  },
  guide: () => {
    guideShown.value = true;
  },
  tour: beginTour,
  'show-shortcuts': () => {
    keysShown.value = true;
  },
  'show-cautions': () => {
    sheet.value = 'cautions';
  },
  'self-check': () => goTo('self-check'),
  about: () => {
    sheet.value = 'about';
  },
};

export function MenuSheets() {
  const text = words.value;
  const close = () => (sheet.value = null);
  if (sheet.value === null) return null;
  if (sheet.value === 'cautions')
    return (
      <SheetDialog title={text.cautions.title} onClose={close}>
        <Cautions />
      </SheetDialog>
    );
  const now = session.value;
  return (
    <SheetDialog title={text.about.title} onClose={close}>
      <dl class="facts">
        <dt>{text.archive.program}</dt>
        <dd>{now === null ? text.common.none : text.about.version(now.recorder.programVersion)}</dd>
        <dt>{text.about.archive}</dt>
        <dd>{now?.archive.path ?? text.common.none}</dd>
        <dt>{text.about.recorder}</dt>
        <dd class="number">{now?.recorder.pid ?? text.common.none}</dd>
      </dl>
      <p>{text.cautions.notSafety}</p>
      <p>{text.cautions.govern}</p>
    </SheetDialog>
  );
}
