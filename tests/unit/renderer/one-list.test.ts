/** Menu, keys and sheet of keys come from the one list of what can be done. */
import { afterEach, describe, expect, it, vi } from 'vitest';
import type { Bridge } from '../../../core/contract/bridge.ts';
import type { Session } from '../../../core/contract/session.ts';
import { menuRequests } from '../../../core/contract/window-requests.ts';
import { namedThing } from '../../../renderer/doing/doing-field.tsx';
import { NEXT_STEP_KEYS, THINGS, shownKeys, takeStep } from '../../../renderer/doing/functions.ts';
import { MENU_PARTS, OF_THE_WINDOW, followMenu, menuNow } from '../../../renderer/doing/told-menu.ts';
import { rowsOfKeys } from '../../../renderer/keys/keys-sheet.tsx';
import { keysOf } from '../../../renderer/keys/page-keys.ts';
import { ACT_KEYS, HELD_ACTS } from '../../../renderer/stations/pull/pull-acts.ts';
import { followChoices } from '../../../renderer/store/choices.ts';
import { session } from '../../../renderer/store/session-store.ts';
import { changeView } from '../../../renderer/store/view-settings.ts';

afterEach(() => changeView({ language: 'en', theme: 'system' }));

const IN_MENU = THINGS.length - OF_THE_WINDOW.length;

describe('the menu', () => {
  it('holds each thing of the list once and nothing else', () => {
    const all = [...Object.values(MENU_PARTS).flat(2), ...OF_THE_WINDOW];
    expect(all.sort()).toEqual(THINGS.map(({ id }) => id).sort());
  });

  it('passes the check of the window’s process, in both languages, with a label of its own each', () => {
    for (const language of ['en', 'es'] as const) {
      changeView({ language });
      const entries = menuNow();
      expect(menuRequests['window.set-menu'].request.parse({ entries }).entries).toHaveLength(IN_MENU);
      expect(new Set(entries.map(({ menu, label }) => `${menu} ${label}`)).size).toBe(IN_MENU);
    }
  });

  it('is in the language of the page, says what can’t be done now and what is chosen', () => {
    const entry = (id: string) => menuNow().find((one) => one.id === id);
    changeView({ language: 'en', theme: 'soot' });
    expect(entry('go-result')).toMatchObject({ label: 'Result', enabled: true, chosen: null });
    expect(entry('stop')).toMatchObject({ enabled: false });
    expect(entry('theme-soot')).toMatchObject({ chosen: true });
    expect(entry('theme-chalk')).toMatchObject({ chosen: false });
    changeView({ language: 'es' });
    expect(entry('language-es')).toMatchObject({ chosen: true });
    expect(entry('go-specimen')?.label).toBe('Probeta');
  });

  it('shows the keys of an act of the pull as keys of one place, others as keys of any', () => {
    for (const { id, keys, everywhere } of menuNow()) {
      if (keys === null) continue;
      const ofOnePlace = Object.values(ACT_KEYS).includes(keys) || keys === NEXT_STEP_KEYS;
      // In a text those take back what was typed there.
      expect(everywhere, id).toBe(!ofOnePlace && id !== 'take-back' && id !== 'bring-again');
    }
  });

  it('is told when something of it is another, and of a session’s news works out anew only what rests on it', () => {
    const told: unknown[] = [];
    const bridge = {
      on: () => () => undefined,
      request: (_name: string, { entries }: { entries: unknown }) => {
        told.push(entries);
        return Promise.resolve({ ok: true, value: {} });
      },
    } as unknown as Bridge;
    const spied = (id: string) => {
      const thing = THINGS.find((one) => one.id === id);
      if (thing?.notNow === undefined) throw new Error(`${id} can always be done`);
      return vi.spyOn(thing as { notNow: () => string | undefined }, 'notNow');
    };
    const [ofSession, ofSet] = [spied('listen'), spied('make-set')];
    const news = (readout: unknown) => {
      session.value = {
        state: 'closed',
        readout,
        pull: null,
        archive: { fault: null },
      } as unknown as Session;
    };
    news(null);
    const end = followMenu(bridge);
    try {
      expect(told).toEqual([menuNow()]);
      const [before, set] = [ofSession.mock.calls.length, ofSet.mock.calls.length];
      news(null);
      expect(ofSession.mock.calls.length).toBeGreaterThan(before);
      expect(ofSet.mock.calls.length).toBe(set);
      expect(told).toHaveLength(1);
      news({ source: { kind: 'serial' } });
      expect(told).toHaveLength(2);
      expect(told[1]).toEqual(menuNow());
    } finally {
      end();
      session.value = null;
      vi.restoreAllMocks();
    }
  });

  it('names what would be taken back, in the language of the page, and says where there is nothing', () => {
    const entry = (id: string) => menuNow().find((one) => one.id === id);
    const label = (id: string) => entry(id)?.label;
    const end = followChoices();
    try {
      expect(entry('take-back')).toMatchObject({ label: 'Take back', enabled: false, menu: 'edit' });
      changeView({ units: 'US' });
      changeView({ theme: 'soot' });
      expect(entry('take-back')).toMatchObject({ label: 'Take back: look', enabled: true });
      takeStep('back');
      expect([label('take-back'), label('bring-again')]).toEqual(['Take back: units', 'Bring again: look']);
      changeView({ language: 'es' });
      expect([label('take-back'), label('bring-again')]).toEqual(['Deshacer: idioma', 'Rehacer']);
    } finally {
      end();
      changeView({ units: 'SI' });
    }
  });
});

describe('the keys', () => {
  it('mean one thing each', () => {
    const all = THINGS.flatMap(({ keys, otherKeys }) => [keys, otherKeys]).filter(
      (keys) => keys !== undefined && keys !== NEXT_STEP_KEYS,
    );
    expect(new Set(all).size).toBe(all.length);
  });

  it('stand on their sheet, all of them, with what they do; what is held says so', () => {
    const rows = Object.values(rowsOfKeys()).flat();
    for (const thing of THINGS) {
      const shown = shownKeys(thing).join('+');
      if (shown === '' || thing.keys === NEXT_STEP_KEYS || /^Alt\+[1-7]$/.test(shown)) continue;
      const row = rows.find(([keys]) => keys.join('+') === shown);
      expect(row?.[1], shown).toContain(namedThing(thing).name);
      const held = (HELD_ACTS as ReadonlySet<string>).has(thing.id);
      expect(row?.[1].startsWith('hold for a second'), shown).toBe(held);
    }
  });

  it('are read as they are written in the list, whatever sign the keyboard puts in the place of a digit', () => {
    const none = { ctrlKey: false, metaKey: false, altKey: false, shiftKey: false, code: '' };
    expect(keysOf({ ...none, key: 'p', ctrlKey: true, shiftKey: true })).toBe('Control+Shift+P');
    expect(keysOf({ ...none, key: '¡', code: 'Digit1', altKey: true })).toBe('Alt+1');
    expect(keysOf({ ...none, key: 'j', metaKey: true })).toBe('Control+J');
    expect(keysOf({ ...none, key: 'F1' })).toBe('F1');
    expect(keysOf({ ...none, key: 'Backspace', ctrlKey: true })).toBe('Control+Backspace');
  });
});
