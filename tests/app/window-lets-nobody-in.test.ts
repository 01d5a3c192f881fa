/** Fault P12 of the program shell: page content turned against the program. Checks Electron's security checklist. */
import { createServer } from 'node:http';
import type { AddressInfo } from 'node:net';
import { join } from 'node:path';
import type { Locator } from 'playwright';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import type { PageReplyOf, PageRequestName, PageRequestOf } from '../../core/contract/bridge.ts';
import { TEXT_LENGTH_MAX } from '../../core/limits.ts';
import { station } from '../../electron/setup/demonstration-pull.mjs';
import { projectFolder } from '../../electron/setup/places.mjs';
import { BY_HAND } from './recorder-process.ts';
import { GaugemarkWindow, scratchFolder } from './support/gaugemark-window.ts';
import { openSimulated } from './support/simulated-readout.ts';
import { until } from './support/until.ts';

const { folder, remove } = scratchFolder();
let gaugemark: GaugemarkWindow;

/** Somebody on this computer who would be glad of a visit, and counts them. */
let visits = 0;
const listener = createServer((_request, answer) => answer.end('here'));
listener.on('connection', () => visits++);
const there = (): string => `127.0.0.1:${(listener.address() as AddressInfo).port}`;

beforeAll(async () => {
  await new Promise<void>((done) => listener.listen(0, '127.0.0.1', done));
  gaugemark = await GaugemarkWindow.open({ folder });
});
afterAll(async () => {
  await gaugemark.end();
  listener.closeAllConnections();
  listener.close();
  remove();
});

/** What the page's console says of a try, run in the page's own world as injected code would be. */
const inPage = <T>(work: () => T | Promise<T>): Promise<T> => gaugemark.page.evaluate(work);

describe('what runs in the page', () => {
  it('has no Node and no Electron, only the bridge', async () => {
    const found = await inPage(() => ({
      require: typeof (globalThis as Record<string, unknown>)['require'],
      process: typeof (globalThis as Record<string, unknown>)['process'],
      module: typeof (globalThis as Record<string, unknown>)['module'],
      bridge: Object.keys((globalThis as unknown as { gaugemark: object }).gaugemark).sort(),
    }));
    expect(found).toEqual({
      require: 'undefined',
      process: 'undefined',
      module: 'undefined',
      bridge: ['on', 'platform', 'request'],
    });
  });

  it('can not replace the bridge', async () => {
    const replaced = await inPage(() => {
      const holder = globalThis as unknown as { gaugemark: { request: unknown } };
      const before = holder.gaugemark.request;
      try {
        holder.gaugemark.request = () => 'mine';
      } catch {
        // Refused aloud is as good as refused in silence.
      }
      return holder.gaugemark.request !== before;
    });
    expect(replaced).toBe(false);
  });

  it('runs in a sandboxed process with an isolated world', async () => {
    const preferences = await gaugemark.app.evaluate(({ BrowserWindow }) => {
      const contents = BrowserWindow.getAllWindows()[0]?.webContents as unknown as {
        getLastWebPreferences: () => Record<string, unknown>;
      };
      return contents.getLastWebPreferences();
    });
    expect(preferences).toMatchObject({
      sandbox: true,
      contextIsolation: true,
      nodeIntegration: false,
      webSecurity: true,
      webviewTag: false,
    });
  });
});

describe('what is typed', () => {
  const markup = (): string =>
    `<script>globalThis.reached=1</script><img src="http://${there()}/" onerror="globalThis.reached=1">`;
  const longMarkup = (count: number): string => `${markup()}${'W'.repeat(count)}`;
  const PLACES = {
    set: 'Alt+1',
    fracture: 'Alt+5',
    certificate: 'Alt+7',
    archive: 'Alt+8',
    instruments: 'Alt+9',
    people: 'Control+Shift+P',
  } as const;

  /** Types each of them into every text box there, folded ones too; what the page is made of stays what it was. */
  async function staysText(where: Locator, name: string, texts: readonly string[]): Promise<void> {
    await where
      .locator('details')
      .evaluateAll((folded) => folded.forEach((one) => one.setAttribute('open', '')));
    // By element: a list of names to choose from makes a combobox of a text box.
    const boxes = where
      .locator(
        ':is(textarea, input:not([type]), input[type="text"], input[type="password"]):not(:disabled, [readonly])',
      )
      .filter({ visible: true });
    await boxes.first().waitFor();
    // What one box holds may take others away.
    for (const text of texts) for (let i = 0; i < (await boxes.count()); i++) await boxes.nth(i).fill(text);
    // Each is left when the next one is come to.
    await gaugemark.page.evaluate(() => (document.activeElement as HTMLElement | null)?.blur());
    await isOnlyText(name);
  }

  async function isOnlyText(name: string): Promise<void> {
    const made = await gaugemark.page.evaluate(() => ({
      reached: 'reached' in globalThis,
      elements: document.querySelectorAll('body script, img[onerror], img[src^="http:"]').length,
      wider: document.documentElement.scrollWidth > window.innerWidth,
    }));
    expect(made, name).toEqual({ reached: false, elements: 0, wider: false });
    expect(visits, name).toBe(0);
  }

  /** Kept as text, shown as text. */
  async function isShown(name: string): Promise<void> {
    await gaugemark.page.locator('main').getByText(markup()).filter({ visible: true }).first().waitFor();
    await isOnlyText(name);
  }

  async function goTo(place: keyof typeof PLACES): Promise<void> {
    await gaugemark.page.keyboard.press(PLACES[place]);
    await gaugemark.page.locator(`main[data-place="${place}"]`).waitFor();
  }

  async function kept<N extends PageRequestName>(
    name: N,
    payload: PageRequestOf<N>,
  ): Promise<PageReplyOf<N>> {
    const answer = await gaugemark.request(name, payload);
    if (!answer.ok) throw new Error(`${name}: ${answer.fault.sentence}`);
    return answer.value;
  }

  it('stays text in every text box of specimen and readout, as markup and in any length (P12)', async () => {
    const { page } = gaugemark;
    for (const name of ['Specimen', 'Readout']) {
      await station(page, name).click();
      await staysText(page.locator('main'), name, [markup(), longMarkup(20_000)]);
    }
  });

  it('stays text in set, fracture, laboratory, people, instruments, archive and reasons, while it is typed and wherever it is shown when it is kept (P12)', async () => {
    const { page } = gaugemark;
    const text = markup();
    const main = page.locator('main');
    const press = (selector: string): Promise<void> => page.locator(selector).first().press('Enter');
    const leaveForm = (): Promise<void> =>
      page
        .getByRole('button', { name: /nothing typed is kept/ })
        .first()
        .press('Enter');
    // Longer than any of them takes.
    const longOnce = [longMarkup(TEXT_LENGTH_MAX)];
    await gaugemark.connected();

    // Kept first, so that it is shown beside what is typed.
    const { specimenId } = await kept('specimen.save', {
      specimen: {
        id: text,
        geometry: { kind: 'flat', width: '20.1 mm', thickness: '6.2 mm' },
        gaugeLength: '50 mm',
        notes: text,
      },
    });
    const { setId } = await kept('set.save', {
      form: {
        name: text,
        purpose: 'class-exercise',
        rulePackId: 'shop-practice',
        specimenType: 'transverse-flat',
        baseMetals: [{ designation: text, minimum: '400 MPa', heat: text }],
        filler: { classification: text, lot: text, minimum: '400 MPa' },
        process: text,
        welder: text,
        customer: text,
        documents: [{ kind: 'wps', number: text }],
        notes: text,
        requiredCount: 1,
      },
    });
    await kept('set.join', { setId, specimenId, by: text });
    await kept('people.save', { name: text, sign: '<i>x</i>', roles: ['operator'] });
    await kept('laboratory.save', { name: text, lines: [text] });
    const { instrumentId } = await kept('instrument.save', {
      form: { kind: 'force-channel', name: text, serialNumber: text, description: text, notes: text },
    });
    await kept('instrument.calibrate', {
      instrumentId,
      form: {
        certificateNumber: text,
        calibratedOn: '2024-01-31',
        dueOn: '2025-01-31',
        by: text,
        notes: text,
      },
    });
    await kept('archive.save-search', { name: text, query: { text } });
    await openSimulated(gaugemark);
    const { pullId } = await kept('pull.ready', { specimenId, operator: text, ...BY_HAND });
    await kept('pull.start', {});
    await kept('pull.close', {});
    await kept('pull.note-fracture', {
      pullId,
      note: { place: 'base-metal', appearance: text, remarks: text },
      by: text,
    });

    await goTo('set');
    await isShown('list of sets');
    await press('#make-set');
    await staysText(main, 'new set', longOnce);
    await leaveForm();
    await main.getByRole('button', { name: `Open ${text}` }).press('Enter');
    await page.locator('#correct-set').waitFor();
    await isShown('set');
    await press('#correct-set');
    await staysText(main, 'correction of a set', longOnce);
    await leaveForm();

    await goTo('fracture');
    await page.getByRole('textbox', { name: 'Remarks' }).waitFor();
    await staysText(main, 'fracture', longOnce);
    await kept('readout.close', {});

    await goTo('certificate');
    await page.locator('#laboratory').waitFor();
    await staysText(main, 'laboratory', longOnce);

    await goTo('people');
    await isShown('people');
    await press('#add-person');
    await page.getByRole('radio', { name: 'with a PIN' }).check({ force: true });
    await staysText(main, 'new person', longOnce);
    await leaveForm();
    await main.getByRole('row', { name: text }).getByRole('button').press('Enter');
    await page.locator('#person-reason').waitFor();
    await staysText(main, 'correction of a person', longOnce);

    await goTo('instruments');
    await isShown('instruments');
    await press('#add-instrument');
    await staysText(main, 'new instrument', longOnce);
    await leaveForm();
    await main.getByRole('button', { name: text }).first().press('Enter');
    await page.locator('#add-calibration').waitFor();
    await isShown('instrument');
    for (const form of ['#add-calibration', '#correct-instrument']) {
      await press(form);
      await staysText(main, form, longOnce);
      await leaveForm();
    }

    await goTo('archive');
    await isShown('found pulls');
    await staysText(main, 'search, filters and names of searches', longOnce);
    await page.locator('#archive-search').fill('');
    await main.getByRole('button', { name: text, exact: true }).waitFor();
    await main.getByRole('button', { name: 'Clear', exact: true }).press('Enter');
    await main.getByRole('button', { name: `Open the pull of ${text}` }).press('Enter');
    await page.locator('#void-pull').waitFor();
    await isShown('pull of the archive');
    await press('#void-pull');
    await staysText(page.locator('dialog[open]'), 'reason why a pull is void', longOnce);
    const dialog = page.locator('dialog[open]');
    await dialog.getByRole('combobox').fill(text);
    await dialog.getByRole('textbox').fill(text);
    await dialog.getByRole('textbox').press('Enter');
    await dialog.waitFor({ state: 'detached' });
    await main.locator('bdi', { hasText: text }).first().waitFor();
    await isOnlyText('void pull');
  });
});

describe('developer tools and reload', () => {
  it('are absent: nothing in the menu, and opening them does nothing (P8)', async () => {
    const found = await gaugemark.app.evaluate(({ BrowserWindow, Menu }) => {
      const contents = BrowserWindow.getAllWindows()[0]?.webContents;
      contents?.openDevTools();
      const items = Menu.getApplicationMenu()?.items.flatMap((item) => item.submenu?.items ?? []) ?? [];
      return {
        open: contents?.isDevToolsOpened(),
        roles: items.map((item) => String(item.role).toLowerCase()),
        keys: items.map((item) => ({ id: item.id, keys: item.accelerator ?? '' })),
      };
    });
    expect(found.open).toBe(false);
    for (const role of ['reload', 'forcereload', 'toggledevtools']) expect(found.roles).not.toContain(role);
    // Ctrl+R makes a pull ready here, where a page would be loaded again.
    expect(found.keys.filter(({ keys }) => /\bR$|F5|F12|Shift\+I/.test(keys))).toEqual([
      { id: 'ready', keys: 'CommandOrControl+R' },
    ]);
    expect(found.keys.map(({ keys }) => keys)).toContain('F1');
    await inPage(() => Object.assign(globalThis, { stillTheSamePage: true }));
    for (const keys of ['Control+r', 'Control+Shift+r', 'F5', 'Control+Shift+i', 'F12'])
      await gaugemark.page.keyboard.press(keys);
    expect(await inPage(() => 'stillTheSamePage' in globalThis)).toBe(true);
    expect(
      await gaugemark.app.evaluate(({ BrowserWindow }) =>
        BrowserWindow.getAllWindows()[0]?.webContents.isDevToolsOpened(),
      ),
    ).toBe(false);
  });
});

describe('going elsewhere', () => {
  it('opens no window (P12)', async () => {
    expect(await inPage(() => window.open('https://example.org/') === null)).toBe(true);
    const count = await gaugemark.app.evaluate(({ BrowserWindow }) => BrowserWindow.getAllWindows().length);
    expect(count).toBe(1);
  });

  it.each(['https://example.org/', 'file:///etc/passwd', 'data:text/html,hello'])(
    'does not navigate to %s',
    async (address) => {
      await gaugemark.page.evaluate((to) => {
        location.href = to;
      }, address);
      await gaugemark.page.waitForTimeout(300);
      expect(gaugemark.page.url()).toBe('gaugemark://page/index.html');
    },
  );

  it('follows no link, also not one that a click opens in another window', async () => {
    await inPage(() => {
      for (const target of ['', '_blank']) {
        const link = document.createElement('a');
        link.href = 'https://example.org/';
        link.target = target;
        document.body.append(link);
        link.click();
        link.remove();
      }
    });
    await gaugemark.page.waitForTimeout(300);
    expect(gaugemark.page.url()).toBe('gaugemark://page/index.html');
    expect(gaugemark.app.windows()).toHaveLength(1);
  });

  it('reaches no network and no other file', async () => {
    const outcomes = await inPage(async () => {
      const tried = ['https://example.org/', 'gaugemark://page/main.js', 'file:///etc/passwd'];
      const fetched = tried.map((address) =>
        fetch(address).then(
          () => 'went',
          () => 'refused',
        ),
      );
      const socket = new Promise((resolve) => {
        try {
          const connection = new WebSocket('wss://example.org/');
          connection.onopen = () => resolve('went');
          connection.onerror = () => resolve('refused');
        } catch {
          resolve('refused');
        }
      });
      const picture = new Promise((resolve) => {
        const image = new Image();
        image.onload = () => resolve('went');
        image.onerror = () => resolve('refused');
        image.src = 'https://example.org/x.png';
      });
      return Promise.all([...fetched, socket, picture]);
    });
    expect(outcomes).toEqual(['refused', 'refused', 'refused', 'refused', 'refused']);
  });

  it('reaches nobody on this computer either, by whatever way a page asks: not one connection is made (P12)', async () => {
    // Whoever may go there is counted.
    await fetch(`http://${there()}/`);
    expect(visits).toBe(1);
    await gaugemark.page.evaluate(async (place) => {
      const element = (name: string, attributes: Record<string, string>): void => {
        const made = document.createElement(name);
        try {
          for (const [key, value] of Object.entries(attributes)) made.setAttribute(key, value);
          document.head.append(made);
        } catch {
          // Refused aloud.
        }
        setTimeout(() => made.remove(), 500);
      };
      const address = `http://${place}/`;
      for (const ask of [
        () => fetch(address, { mode: 'no-cors' }).catch(() => undefined),
        () => navigator.sendBeacon(address, 'x'),
        () => new WebSocket(`ws://${place}/`),
        () => new EventSource(address),
        () => new Worker(address),
        () => (new Image().src = address),
        () => window.open(address),
        () => (location.href = address),
      ])
        try {
          void ask();
        } catch {
          // Refused aloud.
        }
      for (const rel of ['stylesheet', 'preconnect', 'prefetch', 'icon', 'modulepreload'])
        element('link', { rel, href: address });
      element('script', { src: address });
      for (const name of ['iframe', 'img', 'video', 'embed']) element(name, { src: address });
      const form = document.createElement('form');
      form.action = address;
      document.body.append(form);
      form.submit();
      form.remove();
      await new Promise((done) => setTimeout(done, 1_000));
    }, there());
    expect(visits).toBe(1);
    expect(gaugemark.page.url()).toBe('gaugemark://page/index.html');
  });

  it('is given no permission', async () => {
    const answers = await inPage(async () => {
      const asked: PermissionName[] = ['geolocation', 'notifications', 'camera', 'microphone'];
      const states = await Promise.all(
        asked.map(async (name) => (await navigator.permissions.query({ name })).state),
      );
      return [...states, await Notification.requestPermission()];
    });
    expect(new Set(answers)).toEqual(new Set(['denied']));
  });
});

describe('a machine without a camera', () => {
  it('is told in a sentence, and no sheet is left behind', async () => {
    const looks = { language: 'en', theme: 'chalk' } as const;
    expect(await gaugemark.request('window.take-photo', { pullId: 1, looks })).toEqual({
      ok: false,
      fault: {
        code: 'camera-none',
        sentence: 'No camera is connected. Connect one, or add a photo from a file. Nothing was kept.',
      },
    });
    expect(gaugemark.app.windows()).toHaveLength(1);
  });
});

describe('markup', () => {
  it('is never made from text: neither by markup sinks nor by inline handlers nor by evaluation (P12)', async () => {
    const outcomes = await inPage(() => {
      const tries: (() => void)[] = [
        () => {
          document.createElement('div').innerHTML = '<b>x</b>';
        },
        () => document.body.insertAdjacentHTML('beforeend', '<b>x</b>'),
        () => {
          // eslint-disable-next-line @typescript-eslint/no-implied-eval, @typescript-eslint/no-unsafe-call -- that is the test
          new Function('return 1')();
        },
        () => {
          const script = document.createElement('script');
          script.textContent = 'globalThis.reached = true';
          document.body.append(script);
          if (!('reached' in globalThis)) throw new Error('did not run');
        },
      ];
      // The driver's own call may evaluate text; what the page does by itself a moment later may not.
      return Promise.all(
        tries.map(
          (attempt) =>
            new Promise((resolve) => {
              setTimeout(() => {
                try {
                  attempt();
                  resolve('went');
                } catch {
                  resolve('refused');
                }
              });
            }),
        ),
      );
    });
    expect(outcomes).toEqual(['refused', 'refused', 'refused', 'refused']);
  });
});

describe('messages to the program', () => {
  it('must be of the contract', async () => {
    const request = (name: string, payload: unknown): Promise<unknown> =>
      gaugemark.request(name as 'session.get', payload as Record<string, never>);
    expect(await request('shell.open', {})).toMatchObject({ ok: false, fault: { code: 'request-unknown' } });
    expect(await request('__proto__', {})).toMatchObject({ ok: false, fault: { code: 'request-unknown' } });
    expect(await request('pull.get', { pullId: 'all' })).toMatchObject({
      ok: false,
      fault: { code: 'request-malformed', field: 'pullId' },
    });
    expect(await request('pull.get', { pullId: 1, more: true })).toMatchObject({ ok: false });
  });

  it('may name only files that a person chose', async () => {
    const wish = { pullId: 1, to: `${folder}/written-by-the-page.csv` };
    expect(await gaugemark.request('archive.export', wish)).toMatchObject({
      ok: false,
      fault: { code: 'path-not-chosen' },
    });
  });

  it('are refused from another page, even one with our own preload script (P12)', async () => {
    const answer = await gaugemark.app.evaluate(
      async ({ BrowserWindow, app }, preload) => {
        const foreign = new BrowserWindow({ show: false, webPreferences: { preload, sandbox: true } });
        try {
          await app.whenReady();
          await foreign.loadURL('data:text/html,<p>foreign</p>');
          return (await foreign.webContents.executeJavaScript(
            'gaugemark.request("window.info", {})',
          )) as unknown;
        } catch (error) {
          return String(error);
        } finally {
          foreign.destroy();
        }
      },
      join(projectFolder, 'build', 'preload.cjs'),
    );
    expect(answer).toMatchObject({ ok: false, fault: { code: 'sender-refused' } });
  });

  it('do not come from a frame inside the page: none that holds a page ever exists, an empty one has no bridge (P12)', async () => {
    const reached = await inPage(async () => {
      const text = '<script>parent.reached = 1; gaugemark.request("window.info", {})</script>';
      const elements = [
        ['iframe', 'src', 'gaugemark://page/index.html'],
        ['iframe', 'src', 'gaugemark://page/camera.html'],
        ['iframe', 'src', 'file:///etc/passwd'],
        ['iframe', 'src', `data:text/html,${text}`],
        ['iframe', 'src', URL.createObjectURL(new Blob([text], { type: 'text/html' }))],
        ['iframe', 'src', 'javascript:parent.reached = 1'],
        ['iframe', 'src', 'about:blank'],
        ['iframe', 'srcdoc', text],
        ['object', 'data', 'gaugemark://page/index.html'],
        ['embed', 'src', 'gaugemark://page/index.html'],
      ] as const;
      for (const [name, key, value] of elements)
        try {
          const made = document.createElement(name);
          document.body.append(made);
          made.setAttribute(key, value);
        } catch {
          // Refused aloud.
        }
      await new Promise((done) => setTimeout(done, 500));
      return 'reached' in globalThis;
    });
    expect(reached).toBe(false);
    // What no policy holds back: looked at from within, by the program itself.
    const frames = await gaugemark.app.evaluate(({ BrowserWindow }) => {
      const top = BrowserWindow.getAllWindows()[0]?.webContents.mainFrame;
      return Promise.all(
        (top?.framesInSubtree ?? [])
          .filter((frame) => frame !== top)
          .map(
            (frame) =>
              frame.executeJavaScript(
                '[location.href, document.querySelectorAll("body *, script").length, typeof globalThis.gaugemark]',
              ) as Promise<[string, number, string]>,
          ),
      );
    });
    await inPage(() => {
      for (const one of document.querySelectorAll('iframe, object, embed')) one.remove();
    });
    expect(frames.length).toBeGreaterThan(0);
    for (const [address, elements, bridge] of frames) {
      expect(address).toMatch(/^(?:about:blank|chrome-error:.*)$/);
      expect([elements, bridge]).toEqual([0, 'undefined']);
    }
  });
});

it('is still there after all this, and works', async () => {
  await until(async () => (await gaugemark.request('window.info', {})).ok, 'the page is answered');
});
