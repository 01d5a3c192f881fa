/** Many pulls looked at together in the real window, by keys alone: curves over each other, results over time, evaluated again. */
import { existsSync, readFileSync } from 'node:fs';
import { join } from 'node:path';
import { expect, test } from 'vitest';
import { builtInPacks } from '../../core/acceptance/packs.ts';
import { keepEvaluation } from '../../core/archive/evaluation-store.ts';
import { keepFirstStated } from '../../core/archive/keep-first-stated.ts';
import { joinSet } from '../../core/archive/member-store.ts';
import { saveSet } from '../../core/archive/set-store.ts';
import { convert } from '../../core/quantity/units.ts';
import { lowerToleranceBound } from '../../core/statistics/tolerance-bound.ts';
import { archiveOfMany } from './support/archive-of-many.ts';
import { ALL_GROUNDS, bringAxe, faultsIn } from './support/looked-over.ts';
import { DrawnComponents } from './support/drawn-components.ts';
import { GaugemarkWindow, scratchFolder } from './support/gaugemark-window.ts';

/** Of a plot: grid, curve and words apart. Common practice, no source. */
const READABLE_PX_MIN = 200;
const PULLS = 5;
/** A value that no evaluation of this curve gives. */
const AS_IF_BEFORE_MPA = 1_000;

/** What three and what two of the pulls were welded with. */
const SETS = [
  { heat: 'H-4711', lot: 'L-7', welder: 'Ota', pulls: [1, 2, 3] },
  { heat: 'H-8', lot: 'L-9', welder: 'Silva', pulls: [4, 5] },
] as const;

/** S355 in plates of 3 to 100 mm by EN 10025-2 (from memory); what their rules ask for. */
const MINIMUM_MPA = 470;

/** The last two are alike; of the others each is thicker, and so weaker, than the one before. */
const diameter = (number: number): string => (number > 3 ? '5.003 mm' : `${String(5 + number / 10)} mm`);

function fivePulls(folder: string): void {
  const archive = archiveOfMany(folder, PULLS, (number) => ({
    geometry: { kind: 'round', diameter: diameter(number) },
    extensometerGaugeLength: '25 mm',
  }));
  // It was put first into a set whose rules ask for 1 100 MPa: by what was stated it is too weak for that.
  archive.noteFracture({ pullId: 2, note: { place: 'base-metal' } });
  archive.sets((connection) => {
    const form = {
      name: 'Bracket',
      purpose: 'procedure-qualification',
      rulePackId: 'shop-practice',
      specimenType: 'transverse-turned',
      baseMetals: [{ designation: 'plate of our own', minimum: '1100 MPa' }],
    };
    const keeping = { wallMs: Date.now(), programVersion: 'test' };
    const setId = saveSet(connection, { form }, { ...keeping, packs: builtInPacks() });
    joinSet(connection, { setId, specimenId: archive.getPull(2).specimenId }, keeping.wallMs);
  });
  archive.sets((connection, keeping) => {
    for (const { heat, lot, welder, pulls } of SETS) {
      const form = {
        name: `of ${heat}`,
        purpose: 'procedure-qualification',
        rulePackId: 'iso-15614-1',
        baseMetals: [{ designation: 'S355', heat, minimum: `${String(MINIMUM_MPA)} MPa` }],
        filler: { classification: 'ER70S-6', lot },
        specimenType: 'transverse-flat',
        welder,
      };
      const setId = saveSet(connection, { form }, { ...keeping, packs: builtInPacks() });
      for (const pullId of pulls)
        joinSet(connection, { setId, specimenId: archive.getPull(pullId).specimenId }, Date.now());
    }
  });
  // As an earlier program might have stated it.
  archive.sets((connection, keeping) =>
    keepEvaluation(
      connection,
      {
        pullId: 2,
        specimenId: archive.getPull(2).specimenId,
        options: {},
        sources: [],
        values: [{ symbol: 'Rm', value: AS_IF_BEFORE_MPA, unit: 'MPa' }],
        methodVersion: '1',
        supersedes: null,
        reason: 'first year',
      },
      keeping,
    ),
  );
  // As it was first worked out then; nobody kept it.
  archive.sets((connection, keeping) =>
    keepFirstStated(
      connection,
      {
        pullId: 5,
        specimenId: archive.newestSpecimenOfPull(5).specimenId,
        values: [{ symbol: 'Rm', value: AS_IF_BEFORE_MPA, unit: 'MPa' }],
        methodVersion: '1',
      },
      keeping,
    ),
  );
  archive.close();
}

test('curves are laid over each other, read out, compared and saved; results are seen over time; a search is evaluated again', async () => {
  const { folder, remove } = scratchFolder();
  fivePulls(folder);
  const window = await GaugemarkWindow.open({ folder });
  const { page } = window;
  const press = async (...keys: string[]): Promise<void> => {
    for (const key of keys) await page.keyboard.press(key);
  };
  const sized = (...size: [number, number]): Promise<void> =>
    window.app.evaluate(
      ({ BrowserWindow }, [width, height]) =>
        BrowserWindow.getAllWindows()
          .find((one) => one.isVisible())
          ?.setContentSize(width, height),
      size,
    );
  const focusedId = (): Promise<string> => page.evaluate(() => document.activeElement?.id ?? '');
  /** Tab until the keys stand on it. */
  const tabTo = async (id: string): Promise<void> => {
    for (let i = 0; i < 60; i++) {
      if ((await focusedId()) === id) return;
      await press('Tab');
    }
    throw new Error(`Tab never comes to ${id}`);
  };
  try {
    await window.connected();
    const drawn = await DrawnComponents.from(page);
    await press('Control+f');
    await page.getByText(`${String(PULLS)} pulls`).waitFor();

    // Two rows marked by keys: the newest and the one below it.
    await press('ArrowDown', 'Space', 'ArrowDown', 'Space');
    await expect.poll(() => page.locator('.mark-cell input:checked').count()).toBe(2);
    // A mark is only a choice: it is taken back, and brought again.
    await press('Control+z');
    await expect.poll(() => page.locator('.mark-cell input:checked').count()).toBe(1);
    await press('Control+Shift+Z');
    await expect.poll(() => page.locator('.mark-cell input:checked').count()).toBe(2);
    // What is marked goes to a spreadsheet: units in the head, numbers alone.
    await press('Control+c');
    await page.getByText('3 lines copied').first().waitFor();
    const copied = await window.app.evaluate(({ clipboard }) => clipboard.readText());
    expect(copied).toMatch(/^Pull no\.\tSpecimen\tWhen\tPeak load, \w+\tStrength, \w+\t/);
    expect(
      copied
        .split('\n')
        .slice(1)
        .map((line) => line.split('\t').slice(0, 2).join(' ')),
    ).toEqual(['5 K-5', '4 K-4']);
    // Ctrl+A chooses all that was found, marked or not, and no text of the page.
    await press('Control+a', 'Control+c');
    await page
      .getByText(`${String(PULLS + 1)} lines copied`)
      .first()
      .waitFor();
    expect(await page.evaluate(() => document.getSelection()?.toString())).toBe('');
    await press('Shift+Tab');
    await tabTo('lay-over');
    await press('Enter');
    expect(await focusedId()).toBe('overlay-first');
    await expect.poll(() => page.locator('.overlay-legend li[data-state="ready"]').count()).toBe(2);

    // The second curve is compared to the first; the cursor goes to the peak, then on in the order of time.
    await tabTo('overlay-legend');
    await press('ArrowDown', 'd');
    await page.getByText('compared to: choose another curve').waitFor();
    await press('ArrowUp');
    await page.getByText('K-5 less K-4').first().waitFor();
    // Both are the same published curve.
    // Both have a height to be read at in the smallest window, whose sheet scrolls for it; what is saved is named of both.
    await sized(1024, 700);
    for (const id of ['overlay-plot', 'difference-plot'])
      await expect
        .poll(async () => (await page.locator(`#${id}`).boundingBox())?.height ?? 0, { message: id })
        .toBeGreaterThanOrEqual(READABLE_PX_MIN);
    await sized(1366, 768);
    expect(await page.getByRole('button', { name: 'Save the curves as SVG' }).count()).toBe(1);
    await page.getByText(/Largest difference at strain, %: [−\d.]+; Δ stress, (MPa|ksi): 0\./u).waitFor();
    // The difference is walked along too.
    await page.locator('#difference-plot').focus();
    await press('p');
    const differs = page.locator('#difference-plot-read-out');
    await expect.poll(() => differs.textContent()).toMatch(/^strain, %: [−\d.]+; Δ stress, (MPa|ksi): 0$/u);
    const mostAt = await differs.textContent();
    await press('End');
    await expect.poll(() => differs.textContent()).not.toBe(mostAt);
    // Aligned where each first reaches a stress that is typed, both begin further before zero: the more, the higher it is.
    const beginsAt = async (): Promise<number> => {
      await press('Home');
      const text = (await differs.textContent()) ?? '';
      return Number(/: ([−\d.]+);/u.exec(text)?.[1]?.replace('−', '-'));
    };
    const byElasticLine = await beginsAt();
    await page.locator('#overlay-align').selectOption('load');
    await page.getByText('Type a value, for example 20 kN or 150 MPa.').waitFor();
    await page.locator('#overlay-load').fill('300 MPa');
    await page.locator('#difference-plot').focus();
    await expect.poll(beginsAt).toBeLessThan(byElasticLine);
    const at300 = await beginsAt();
    await page.locator('#overlay-load').fill('600 MPa');
    await page.locator('#difference-plot').focus();
    await expect.poll(beginsAt).toBeLessThan(at300);
    await page.locator('#overlay-align').selectOption('start');
    await page.locator('#difference-plot').focus();
    await expect.poll(beginsAt).toBe(0);
    await page.locator('#overlay-align').selectOption('elastic-zero');
    await page.locator('#difference-plot').focus();
    await expect.poll(beginsAt).toBe(byElasticLine);
    await press('Escape');
    await expect.poll(() => differs.textContent()).toBe('');
    // It is a picture of its own to save.
    const lessPath = join(folder, 'less.svg');
    await window.app.evaluate(({ dialog }, filePath) => {
      dialog.showSaveDialog = () => Promise.resolve({ canceled: false, filePath });
    }, lessPath);
    await page.getByRole('button', { name: 'Save the difference as SVG' }).press('Enter');
    await expect.poll(() => existsSync(lessPath)).toBe(true);
    expect(readFileSync(lessPath, 'utf8')).toContain('>K-5 less K-4<');
    await page.locator('#overlay-legend').focus();
    await bringAxe(page);
    const faults = await faultsIn(page, 'curves with their difference', ALL_GROUNDS);
    await press('Enter', 'p');
    expect(await focusedId()).toBe('overlay-plot');
    const readOut = page.locator('.overlay-read-out');
    await expect.poll(() => readOut.textContent()).toMatch(/^K-5, reading \d+: .*load/);
    const readingAt = async (): Promise<number> =>
      Number(/reading (\d+)/.exec((await readOut.textContent()) ?? '')?.[1]);
    const peak = await readingAt();
    await press('ArrowRight');
    await expect.poll(readingAt).toBeGreaterThan(peak);
    await press('ArrowLeft', '+', '+', 'Control+ArrowRight', '0', 'ArrowDown', 'y');
    await expect.poll(() => readOut.textContent()).toMatch(/^K-4, reading/);

    // Saved from the same drawing, as text and as pixels; where, is asked by the program itself.
    for (const form of ['svg', 'png'] as const) {
      const to = join(folder, `picture.${form}`);
      await window.app.evaluate(({ dialog }, filePath) => {
        dialog.showSaveDialog = () => Promise.resolve({ canceled: false, filePath });
      }, to);
      await page.locator(`#overlay-${form}`).focus();
      await press('Enter');
      await expect.poll(() => existsSync(to)).toBe(true);
    }
    expect(readFileSync(join(folder, 'picture.svg'), 'utf8')).toContain('>K-4<');
    // PNG signature: ISO/IEC 15948, 5.2.
    expect(readFileSync(join(folder, 'picture.png')).subarray(0, 8).toString('hex')).toBe('89504e470d0a1a0a');

    // Results over time, of all five.
    await press('Escape');
    await page.locator('#see-trend').focus();
    await press('Enter');
    await page.locator('#trend-progress', { hasText: '5 of 5 pulls evaluated; this result in 5' }).waitFor();
    // What is chosen of the picture is only a choice.
    await page.locator('#trend-view').selectOption('welder');
    await press('Control+z');
    expect(await page.locator('#trend-view').inputValue()).toBe('individuals');
    // So are the units; what was chosen last is taken back first.
    const unit = page.getByRole('radio', { name: 'SI', exact: true });
    const hadSi = await unit.isChecked();
    await page.getByRole('radio', { name: hadSi ? 'US' : 'SI', exact: true }).check({ force: true });
    await press('Control+z');
    expect(await unit.isChecked()).toBe(hadSi);
    const facts = (await page.locator('.trend-figures').textContent()) ?? '';
    expect(facts).toMatch(/values5IMPORTEDallmean[\d\u202f.]+ (MPa|psi)/);
    expect(await page.locator('#tolerance-bound').textContent()).toMatch(/noncentral t/);

    // Its points by key and by pointer, each with its value as the recorder evaluates it; Enter opens the pull.
    const strengths: number[] = [];
    const days: string[] = [];
    for (let pullId = 1; pullId <= PULLS; pullId++) {
      const answer = await window.request('pull.evaluate', { pullId });
      const kept = await window.request('pull.get', { pullId });
      if (kept.ok) days.push(new Date(kept.value.startedWallMs).toISOString().slice(0, 10));
      if (answer.ok) strengths.push(answer.value.results.find(({ symbol }) => symbol === 'Rm')?.value ?? 0);
    }
    const trendRead = page.locator('#trend-plot-read-out');
    const readsOut = (pull: number, facts: string) =>
      expect
        .poll(async () => {
          const [, name, day, value = '', unit = '', more] =
            /^(K-\d), (\d{4}-\d\d-\d\d): ([\d\u202f.]+) (MPa|psi)(.*)$/u.exec(
              (await trendRead.textContent()) ?? '',
            ) ?? [];
          const mpa = convert(Number(value.replaceAll('\u202f', '')), unit === 'psi' ? 'psi' : 'MPa', 'MPa');
          return { name, day, more, isItsValue: Math.abs(mpa / (strengths[pull - 1] ?? 0) - 1) < 1e-3 };
        })
        .toEqual({ name: `K-${String(pull)}`, day: days[pull - 1], more: facts, isItsValue: true });
    const [FIRST_FACTS, SECOND_FACTS] = SETS.map(
      ({ heat, lot, welder }) =>
        `; heat of the base metal ${heat}; lot of the filler ${lot}; welder ${welder}`,
    ) as [string, string];
    await page.locator('#trend-plot').focus();
    for (const [i, facts] of [FIRST_FACTS, FIRST_FACTS, FIRST_FACTS, SECOND_FACTS].entries()) {
      await press(i === 0 ? 'Home' : 'ArrowRight');
      await readsOut(i + 1, facts);
    }
    await press('ArrowRight', 'ArrowRight');
    await readsOut(5, SECOND_FACTS);
    const itsBox = await page.locator('#trend-plot').boundingBox();
    if (itsBox === null) throw new Error('the picture of the trend has no place');
    await page.mouse.move(itsBox.x + itsBox.width * 0.12, itsBox.y + itsBox.height / 2);
    await readsOut(1, FIRST_FACTS);

    // What the rules of their sets ask for stands among the figures, and as a line of its own below the mean in every picture.
    await expect
      .poll(() => page.locator('.trend-figures').textContent())
      .toMatch(/minimum of the rules[\d\u202f.]+ (MPa|psi)/);
    const hasMinimum = (texts: readonly string[]): boolean =>
      texts.some((text) => {
        const [, value = '', unit] = /^minimum ([\d\u202f.]+) (MPa|psi)$/u.exec(text) ?? [];
        const mpa = convert(Number(value.replaceAll('\u202f', '')), unit === 'psi' ? 'psi' : 'MPa', 'MPa');
        return Math.abs(mpa / MINIMUM_MPA - 1) < 1e-3;
      });
    // In each picture by group its names with their counts, the largest first, and over the date the day.
    const savedTrend = async (view: string): Promise<string[]> => {
      await page.locator('#trend-view').selectOption(view);
      const to = join(folder, `trend-${view}.svg`);
      await window.app.evaluate(({ dialog }, filePath) => {
        dialog.showSaveDialog = () => Promise.resolve({ canceled: false, filePath });
      }, to);
      await page.locator('#trend-svg').focus();
      await press('Enter');
      await expect.poll(() => existsSync(to)).toBe(true);
      const svg = readFileSync(to, 'utf8');
      const texts = [...svg.matchAll(/<text[^>]*>([^<]*)</g)].map(([, text = '']) => text);
      expect(hasMinimum(texts), `${view}: ${texts.join(', ')}`).toBe(true);
      return texts;
    };
    for (const [view, fact] of [
      ['heat', 'heat'],
      ['lot', 'lot'],
      ['welder', 'welder'],
    ] as const)
      expect((await savedTrend(view)).filter((text) => /\(\d+\)$/.test(text))).toEqual([
        `${SETS[0][fact]} (3)`,
        `${SETS[1][fact]} (2)`,
      ]);
    await page.locator('#trend-plot').focus();
    await press('End', 'Home');
    await readsOut(1, FIRST_FACTS);
    expect(await savedTrend('date')).toContain(days[0]);
    await savedTrend('individuals');

    // The bound of these five by each law, as chosen.
    const bound = page.locator('#tolerance-bound strong');
    for (const distribution of ['normal', 'lognormal'] as const) {
      await page.getByLabel('Distribution', { exact: true }).selectOption(distribution);
      const answer = lowerToleranceBound(strengths, { distribution, coverage: 0.95, confidence: 0.95 });
      const wanted = answer.kind === 'withheld' ? Number.NaN : answer.bound;
      await expect
        .poll(async () => {
          const [, value = '', unit] =
            /^([\d\u202f.]+) (MPa|psi)$/u.exec((await bound.textContent()) ?? '') ?? [];
          const mpa = convert(Number(value.replaceAll('\u202f', '')), unit === 'psi' ? 'psi' : 'MPa', 'MPa');
          return Math.abs(mpa / wanted - 1);
        })
        // The two differ by a hundredth.
        .toBeLessThan(1e-3);
    }
    await page.locator('#trend-values summary').click();
    await expect.poll(() => page.locator('#trend-values tbody tr').count()).toBe(PULLS);
    faults.push(...(await faultsIn(page, 'results over time with their points', ALL_GROUNDS)));
    await page.locator('#trend-values summary').focus();
    await press('Control+c');
    await page
      .getByText(`${String(PULLS + 1)} lines copied`)
      .last()
      .waitFor();
    const table = (await window.app.evaluate(({ clipboard }) => clipboard.readText()))
      .split('\n')
      .map((line) => line.split('\t'));
    expect(table[0]?.[2]).toMatch(/^strength Rm, (MPa|psi)$/);
    expect(table.slice(1).map(([name, , , heat]) => `${String(name)} ${String(heat)}`)).toEqual(
      [1, 2, 3, 4, 5].map((n) => `K-${String(n)} ${SETS[n > 3 ? 1 : 0].heat}`),
    );
    for (const [, , value] of table.slice(1)) expect(Number(value)).toBeGreaterThan(0);
    await page.locator('#trend-values summary').click();
    await page.locator('#trend-plot').focus();
    await press('End', 'Enter');
    await page.locator('.opened-head').getByText('K-5').first().waitFor();
    await press('Escape');
    await page.locator('#see-trend').focus();
    await press('Enter');
    await page.locator('#trend-progress', { hasText: '5 of 5 pulls evaluated; this result in 5' }).waitFor();

    // The search evaluated again: what was stated otherwise is listed, nothing is kept unasked. The others were first
    // worked out above.
    await press('Escape');
    await page.locator('#evaluate-found-again').focus();
    await press('Enter', 'Enter');
    await page
      .locator('#again-progress', { hasText: '5 of 5 evaluated; 2 changed; 0 had nothing stated before' })
      .waitFor();
    await page.getByText('1 of 3 sets is judged otherwise, as a whole or in a specimen.').waitFor();
    expect(await page.locator('#again-sets').textContent()).toMatch(/Bracket.*rejected/i);
    const listed = await page.locator('.again-table').first().textContent();
    expect(listed).toContain('evaluation 1, method 1');
    expect(listed).toMatch(
      /as first worked out on \d{4}-\d\d-\d\d \d\d:\d\d:\d\d by Gaugemark \S+, method 1/,
    );
    faults.push(...(await faultsIn(page, 'what was evaluated again', ALL_GROUNDS)));
    expect(await drawn.notDrawnAsSaid('window-many-pulls')).toEqual([]);
    expect(faults).toEqual([]);
    const history = async () => {
      const answer = await window.request('evaluation.history', { pullId: 2 });
      return answer.ok ? answer.value.evaluations : [];
    };
    expect(await history()).toHaveLength(1);
    await tabTo('again-reason');
    await page.keyboard.type('program of this year');
    await tabTo('again-keep');
    await press('Enter');
    // One after the other: that of this pull need not be the first.
    await page.getByText('kept as evaluation 2').waitFor();
    await expect
      .poll(async () => (await history()).at(-1))
      .toMatchObject({ supersedes: 1, reason: 'program of this year' });
  } finally {
    await window.end();
    remove();
  }
});
