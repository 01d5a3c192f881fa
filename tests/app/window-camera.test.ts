/**
 * The camera in the real window, with the made-up camera that the browser engine brings for tests. Who is granted what:
 * W3C "Media Capture and Streams" (names of the refusals), Electron's security checklist.
 */
import type { Page } from 'playwright';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { enterSpecimen, station } from '../../electron/setup/demonstration-pull.mjs';
import { pictureFacts } from '../../core/photo/picture-facts.ts';
import { GaugemarkWindow, scratchFolder } from './support/gaugemark-window.ts';
import { GROUNDS, type Ground, bringAxe, faultsIn } from './support/looked-over.ts';
import { chooseSi } from './support/simulated-readout.ts';
import { until } from './support/until.ts';

/** The first of a new archive. */
const PULL_ID = 1;

const { folder, remove } = scratchFolder();
let gaugemark: GaugemarkWindow;

beforeAll(async () => {
  gaugemark = await GaugemarkWindow.open({
    folder,
    args: ['--use-fake-device-for-media-stream=device-count=2'],
  });
  await gaugemark.connected();
  const { page } = gaugemark;
  await chooseSi(page);
  await enterSpecimen(page);
  await station(page, 'Pull').click();
  await page.locator('.typed-pull summary').press('Enter');
  await page.locator('#typed-load').fill('30 kN');
  await page.locator('#keep-typed').press('Enter');
  await station(page, 'Fracture').click();
});
afterAll(async () => {
  await gaugemark.end();
  remove();
});

/** What comes of asking for camera and microphone in a page, by the name of the refusal. */
const asked = (page: Page, wanted: MediaStreamConstraints): Promise<string> =>
  page.evaluate(
    (constraints) =>
      navigator.mediaDevices.getUserMedia(constraints).then(
        (stream) => {
          for (const track of stream.getTracks()) track.stop();
          return 'granted';
        },
        (error: unknown) => (error instanceof Error ? error.name : String(error)),
      ),
    wanted,
  );

async function openSheet(): Promise<Page> {
  const opened = gaugemark.app.waitForEvent('window');
  await gaugemark.page.locator('#take-photo').press('Enter');
  const sheet = await opened;
  await until(
    () => sheet.locator('#take').evaluate((button) => button === document.activeElement),
    'the camera is shown',
  );
  return sheet;
}

/** The sheet has the looks that the page had when it was opened. */
async function openSheetOn(ground: Ground): Promise<Page> {
  await gaugemark.page.emulateMedia(GROUNDS[ground]);
  await gaugemark.page.locator(`html[data-theme="${ground}"]`).waitFor();
  const sheet = await openSheet();
  await bringAxe(sheet);
  expect(await faultsIn(sheet, 'camera', [ground])).toEqual([]);
  return sheet;
}

const windowCount = (): Promise<number> =>
  gaugemark.app.evaluate(({ BrowserWindow }) => BrowserWindow.getAllWindows().length);
const closed = (): Promise<void> => until(async () => (await windowCount()) === 1, 'the sheet is gone');

/** The sheet is gone before the key is let go, which the driver takes for a fault. */
async function lastKey(sheet: Page, key: string): Promise<void> {
  await sheet.keyboard.press(key).catch(() => undefined);
  await closed();
}

describe('the program’s own page', () => {
  it('is given no camera and no microphone, though both are there', async () => {
    expect(await asked(gaugemark.page, { video: true })).toBe('NotAllowedError');
    expect(await asked(gaugemark.page, { audio: true })).toBe('NotAllowedError');
  });
});

describe('the sheet of the camera', () => {
  it('is given the picture alone, and nobody else is while it is open', async () => {
    const sheet = await openSheetOn('chalk');
    expect(await asked(sheet, { video: true })).toBe('granted');
    expect(await asked(sheet, { audio: true })).toBe('NotAllowedError');
    expect(await asked(sheet, { audio: true, video: true })).toBe('NotAllowedError');
    expect(await asked(gaugemark.page, { video: true })).toBe('NotAllowedError');
    const states = await sheet.evaluate(async () => {
      const names: PermissionName[] = ['geolocation', 'notifications', 'microphone'];
      return Promise.all(names.map(async (name) => (await navigator.permissions.query({ name })).state));
    });
    expect(new Set(states)).toEqual(new Set(['denied']));
    expect(
      await sheet.evaluate(() =>
        Object.keys((globalThis as unknown as { gaugemarkCamera: object }).gaugemarkCamera),
      ),
    ).toEqual(['say']);
    expect(await sheet.evaluate(() => typeof (globalThis as { gaugemark?: unknown }).gaugemark)).toBe(
      'undefined',
    );
    // One at a time.
    const again = await gaugemark.request('window.take-photo', {
      pullId: PULL_ID,
      looks: { language: 'en', theme: 'chalk' },
    });
    expect(again).toMatchObject({ ok: false, fault: { code: 'camera-open' } });
    await lastKey(sheet, 'Escape');
    await gaugemark.page.getByText('No photo is kept yet.').waitFor();
  });

  it('takes the picture, takes it again, and what is kept is a whole JPEG with its hash', async () => {
    await gaugemark.page.getByRole('textbox', { name: 'What it shows' }).fill('both halves');
    const sheet = await openSheetOn('soot');
    const size = await sheet
      .locator('video')
      .evaluate((video) => [(video as HTMLVideoElement).videoWidth, (video as HTMLVideoElement).videoHeight]);
    expect(await sheet.getByRole('combobox', { name: 'Camera' }).locator('option').count()).toBe(2);
    await sheet.keyboard.press('Enter');
    await sheet.locator('#again').press('Enter');
    await sheet.keyboard.press('Enter');
    await lastKey(sheet, 'Enter');
    const photos = gaugemark.page.getByRole('region', { name: 'Photos of the broken specimen' });
    const picture = photos.getByRole('img', { name: 'both halves' });
    await until(
      async () => (await picture.evaluate((image) => (image as HTMLImageElement).naturalWidth)) === size[0],
      'the photo is shown',
    );
    const listed = await gaugemark.request('photo.list', { pullId: PULL_ID });
    const photo = listed.ok ? listed.value.photos[0] : undefined;
    expect(photo).toMatchObject({
      mediaType: 'image/jpeg',
      widthPx: size[0],
      heightPx: size[1],
      caption: 'both halves',
    });
    expect(photo?.fileName).toMatch(/^camera-\d{4}-\d\d-\d\d-\d{6}\.jpg$/);
    const bytes = await gaugemark.page.evaluate(async (photoId) => {
      const bridge = (
        globalThis as unknown as { gaugemark: { request: (n: string, p: object) => Promise<unknown> } }
      ).gaugemark;
      const answer = (await bridge.request('photo.get', { photoId })) as { value: { bytes: Uint8Array } };
      const digest = await crypto.subtle.digest('SHA-256', new Uint8Array(answer.value.bytes));
      return {
        file: [...answer.value.bytes],
        sha256: [...new Uint8Array(digest)].map((byte) => byte.toString(16).padStart(2, '0')).join(''),
      };
    }, photo?.photoId ?? 0);
    expect(bytes.sha256).toBe(photo?.sha256);
    // Not one grey: the made-up camera shows a moving figure on a coloured ground.
    expect(new Set(bytes.file).size).toBeGreaterThan(100);
    expect(pictureFacts(new Uint8Array(bytes.file))).toMatchObject({ ok: true, facts: { widthPx: size[0] } });
  });

  it('is gone with its camera when the window’s page is loaded anew', async () => {
    await openSheetOn('contrast');
    await gaugemark.app.evaluate(({ BrowserWindow }) => {
      BrowserWindow.getAllWindows()
        .find((one) => one.getParentWindow() === null)
        ?.webContents.reload();
    });
    await closed();
  });
});
