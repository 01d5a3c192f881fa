/** The results of a search on paper: what stands above the table, what is typed stays text, and what is too much is refused. */
import { expect, it } from 'vitest';
import { resultsPage } from '../../../core/certificate/paper/results-page.ts';
import { FRACTURE_PLACES } from '../../../core/contract/record.ts';
import { FOUND_VERDICTS, NEWEST_FIRST } from '../../../core/contract/search-requests.ts';
import { PAPER_COLUMNS_MAX, PAPER_ROWS_MAX } from '../../../core/exchange/export/asked-columns.ts';
import { MARKED_ROWS_NAMED_MAX, markedRows } from '../../../core/exchange/export/marked-rows.ts';
import type { TabledPull } from '../../../core/exchange/export/results-table.ts';
import { searchFacts } from '../../../core/exchange/export/search-facts.ts';
import { READINGS_ORIGINS } from '../../../core/pull/readings-origin.ts';
import type { Result } from '../../../core/results/result.ts';
import { SPANISH_PAPER } from '../../../core/words/es/spanish-paper.ts';
import { ENGLISH_PAPER, type PaperWords } from '../../../core/words/paper-words.ts';
import { paperTableOf } from '../../../electron/exports/results-file.ts';

const pull = (pullId: number, more: Partial<TabledPull> = {}): TabledPull => ({
  pullId,
  specimenName: `W-${String(pullId)}`,
  startedWallMs: Date.UTC(2026, 2, 4, 7, 12, 30),
  utcOffsetMinutes: 60,
  readingCount: 900,
  gapCount: 0,
  interrupted: false,
  results: [],
  withheld: [],
  ...more,
});
const RM: Result = {
  symbol: 'Rm',
  name: 'tensile strength',
  value: 512.345,
  unit: 'MPa',
  rounded: [{ value: 512, text: '512', unit: 'MPa', step: 1, rule: 'ISO 6892-1: strength to 1 MPa' }],
  method: '',
  working: { formula: '', inputs: [], substituted: '', source: '' },
};

const page = (pulls: readonly TabledPull[], words: PaperWords = ENGLISH_PAPER): string =>
  resultsPage(
    {
      table: paperTableOf(pulls, undefined),
      search: searchFacts(
        { text: 'heat <77>', fromDay: '2026-03-01', verdict: 'reject' },
        NEWEST_FIRST,
        words,
      ),
      archive: 'shop.gaugemark',
      marked: markedRows(pulls),
      programVersion: '1.2.3',
      made: '2026-11-29T19:00:00.000+01:00',
    },
    { paper: 'A4', fonts: [], words },
  ).html;

it('says archive, search and day above rows in which nothing that was typed is markup', () => {
  const html = page([
    pull(1, { results: [RM], heat: '<i>H-77', verdict: 'reject' }),
    pull(2, { source: 'simulated', voidReason: 'slipped' }),
  ]);
  for (const text of [
    'shop.gaugemark',
    'heat &lt;77&gt;',
    'from 2026-03-01',
    '2026-11-29 19:00:00 (UTC+01:00) by Gaugemark 1.2.3',
    '2 pulls',
    '&lt;i&gt;H-77',
    '<bdi>512</bdi>',
    '2026-03-04 08:12',
    // A row of no specimen, or one that counts no more, is not shown like the others.
    'SIMULATED readings: pull 2.',
    'VOID: pull 2.',
  ])
    expect(html).toContain(text);
  expect(html).not.toContain('<i>');
  expect(html).toContain("default-src 'none'");
});

it('leaves out usual columns in which nothing stands, never one that was asked for', () => {
  const pulls = [pull(1, { results: [RM] })];
  expect(paperTableOf(pulls, undefined).titles).toEqual(['pull', 'specimen', 'started', 'Rm rounded (MPa)']);
  const asked = paperTableOf(pulls, [
    { kind: 'fact', fact: 'welder' },
    { kind: 'result', symbol: 'Rm', form: 'unrounded' },
  ]);
  expect([asked.titles, asked.blank]).toEqual([['welder', 'Rm (MPa)'], ['welder']]);
});

it('turns the sheet across, and counts its pages', () => {
  const { sheet, foot } = resultsPage(
    {
      table: paperTableOf([pull(1)], undefined),
      search: searchFacts({}, NEWEST_FIRST),
      archive: 'a',
      marked: [],
      programVersion: '1',
      made: '2026-11-29T19:00:00.000Z',
    },
    { paper: 'Letter', fonts: [] },
  );
  // US Letter, 8.5 by 11 inches.
  expect([sheet.widthMm, sheet.heightMm]).toEqual([279.4, 215.9]);
  expect(foot).toMatch(/page <span class="pageNumber"><\/span> of <span class="totalPages">/);
  expect(searchFacts({}, NEWEST_FIRST)[0]).toEqual({ label: 'search', value: 'every pull' });
});

it('is refused beyond what is printed', () => {
  const many = Array.from({ length: PAPER_ROWS_MAX + 1 }, (_, i) => pull(i + 1));
  expect(() => paperTableOf(many, undefined)).toThrow(/at most 2000 are printed/);
  const columns = Array.from(
    { length: PAPER_COLUMNS_MAX + 1 },
    () => ({ kind: 'fact', fact: 'pull' }) as const,
  );
  expect(() => paperTableOf([pull(1)], columns)).toThrow(/at most 18 can be read on paper/);
});

it('names pulls that are not like others in the language of the paper, few by number, the rest counted', () => {
  const archive = 'a.gaugemark';
  const marked = (count: number) =>
    Array.from({ length: count }, (_, i) => pull(i + 1, { archive, voidReason: 'slipped' }));
  expect(page(marked(2), SPANISH_PAPER)).toContain('ANULADOS: ensayos 1 de a.gaugemark, 2 de a.gaugemark.');
  expect(page(marked(2))).toContain('VOID: pulls 1 of a.gaugemark, 2 of a.gaugemark.');
  const many = marked(MARKED_ROWS_NAMED_MAX + 4);
  expect(page(many, SPANISH_PAPER)).toContain(`, ${String(MARKED_ROWS_NAMED_MAX)} de a.gaugemark y 4 más.`);
  expect(page(many)).toContain(`, ${String(MARKED_ROWS_NAMED_MAX)} of a.gaugemark and 4 more.`);
});

it('has words in place of the codes that a table for machines has, in both languages, and leaves what was typed', () => {
  const codes = [
    ...FOUND_VERDICTS,
    ...FRACTURE_PLACES,
    ...READINGS_ORIGINS,
    'modbus-tcp',
    'modbus-rtu',
  ].filter((code) => code.includes('-'));
  const rows = codes.map((code, at) => pull(at + 1, { verdict: code, fracture: code, source: code }));
  for (const words of [ENGLISH_PAPER, SPANISH_PAPER]) {
    const html = page([...rows, pull(99, { heat: 'weld-metal' })], words);
    const cells = [...html.matchAll(/<td[^>]*><bdi>([^<]*)</g)].map(([, cell]) => cell);
    expect(cells.filter((cell) => codes.includes(cell ?? ''))).toEqual(['weld-metal']);
    for (const [broke, geometry] of [
      ['in-grips', 'pipe-strip'],
      ['outside-gauge-marks', 'unmeasured'],
    ] as const) {
      const said = searchFacts({ broke, geometry, verdict: 'not-judged' }, NEWEST_FIRST, words);
      const values = said.map(({ value }) => value);
      for (const code of [broke, geometry, 'not-judged']) expect(values).not.toContain(code);
    }
  }
});

it('is written in Spanish, but for what was typed', () => {
  const html = page(
    [
      pull(1, { results: [RM], heat: 'undecided', verdict: 'reject', fracture: 'heat-affected-zone' }),
      pull(2, {
        source: 'simulated',
        archive: 'old.gaugemark',
        voidReason: 'from memory',
        verdict: 'undecided',
      }),
    ],
    SPANISH_PAPER,
  );
  for (const text of [
    '<html lang="es">',
    'Resultados de una búsqueda',
    'desde 2026-03-01',
    'según cuándo se guardaron, primero los mayores o más nuevos',
    '2026-11-29 19:00:00 (UTC+01:00) con Gaugemark 1.2.3',
    'Rm redondeado (MPa)',
    'zona afectada térmicamente',
    // Of the search, and of the row.
    '<dd><bdi>rechazada</bdi></dd>',
    '<td><bdi>rechazada</bdi></td>',
    '<bdi>sin decidir</bdi>',
    // Typed.
    '<bdi>undecided</bdi>',
    'heat &lt;77&gt;',
    'Lecturas SIMULADAS: ensayo 2 de old.gaugemark.',
    'ANULADO: ensayo 2 de old.gaugemark.',
    'Fin de la tabla: 2 ensayos',
  ])
    expect(html).toContain(text);
  expect(html.replace(/<style>[\s\S]*?<\/style>/g, '').replace(/<[^>]*>/g, '\n')).not.toMatch(
    /^(?:pull|pulls|specimen|started|archive|found|made|order|words|verdict|fracture|heat|void)$/m,
  );
});
