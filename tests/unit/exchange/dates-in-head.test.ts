/** Dates that a file carries above its rows: proposed with what they may mean, never taken. */
import { describe, expect, it } from 'vitest';
import { DATES_IN_FILE_MAX, datesInHead } from '../../../core/exchange/import/dates-in-head.ts';
import { proposeImport } from '../../../core/exchange/import/propose-import.ts';
import { clockMsOf, dateOfPull, liesAhead, statedDay } from '../../../core/pull/stated-day.ts';

const daysIn = (text: string): string[][] => datesInHead([{ line: 1, text }]).map(({ days }) => [...days]);

describe('a date in a line', () => {
  it.each([
    ['Date: 2019-05-14', [['2019-05-14']]],
    ['started: 2019-05-14T10:30:05.250+02:00', [['2019-05-14T10:30']]],
    ['Prüfdatum;14.05.2019 9:05', [['2019-05-14T09:05']]],
    ['2019/5/4', [['2019-05-04']]],
    // Day and month may be either where a stroke stands between and both exist.
    ['Test date 05/04/2019', [['2019-04-05', '2019-05-04']]],
    ['Test date 05/14/2019 1:15:00 PM', [['2019-05-14T13:15']]],
    ['12/12/2019 12:05 am', [['2019-12-12T00:05']]],
    ['14 May 2019, 10:30', [['2019-05-14T10:30']]],
    ['May 14th, 2019', [['2019-05-14']]],
    ['14. März 2019', [['2019-03-14']]],
    ['14 de agosto de 2019', [['2019-08-14']]],
    ['tested 2019-05-14, calibrated 2019-01-31', [['2019-05-14'], ['2019-01-31']]],
  ])('%s', (text, days) => {
    expect(daysIn(text)).toEqual(days);
  });

  it.each([
    'Order 31.02.2019',
    'v1.2.2019.4',
    'Lot 4711-20190514',
    '1/2 in',
    'in 1820-05-14',
    'Force 14.052019 kN',
    'line 10 of 2019',
  ])('%s is none', (text) => {
    expect(daysIn(text)).toEqual([]);
  });

  it('is told once, and of many the first', () => {
    const lines = Array.from({ length: 30 }, (_, i) => ({
      line: i + 1,
      text: `2019-05-${String(1 + Math.floor(i / 2)).padStart(2, '0')}`,
    }));
    const dates = datesInHead(lines);
    expect(dates).toHaveLength(DATES_IN_FILE_MAX);
    expect(dates.map(({ line }) => line)).toEqual(Array.from({ length: 10 }, (_, i) => 2 * i + 1));
  });

  it('is proposed with its line from above the rows and from a column of moments, and the plan does not change', () => {
    const file = (head: string): Buffer =>
      Buffer.from(`${head}time;force_kN\n2019-05-15 08:00:00;1.5\n2019-05-15 08:00:01;2.5\n`);
    const proposed = proposeImport(file('Machine: old\nDate: 14.05.2019\n\n'), true);
    if (!proposed.ok) throw new Error(proposed.fault.sentence);
    expect(proposed.proposal.dates).toEqual([
      { line: 2, text: 'Date: 14.05.2019', days: ['2019-05-14'] },
      { line: 5, text: '2019-05-15 08:00:00', days: ['2019-05-15T08:00'] },
    ]);
  });
});

describe('a stated day', () => {
  it('is a day that there is, from 1900 on, with or without a time', () => {
    for (const good of ['1900-01-01', '2020-02-29', '2019-05-14T00:00', '2019-05-14T23:59'])
      expect(statedDay.safeParse(good).success, good).toBe(true);
    for (const bad of [
      '1899-12-31',
      '2019-02-29',
      '2019-13-01',
      '2019-05-14T24:00',
      '2019-05-14 10:30',
      '2019-05-14T10:30:00',
      '14.05.2019',
      '2019-5-4',
      '',
    ])
      expect(statedDay.safeParse(bad).success, bad).toBe(false);
    expect(clockMsOf('1970-01-02T00:01')).toBe(86_460_000);
  });

  it('may be tomorrow, which is today elsewhere, and not later', () => {
    const now = Date.UTC(2026, 2, 4, 22);
    expect(
      ['2026-03-05', '2026-03-05T21:59', '2026-03-05T22:01', '2026-03-06'].map((day) => liesAhead(day, now)),
    ).toEqual([false, false, true, true]);
  });
});

it('writes a stated day and a recorded moment one way for window and command line', () => {
  const started = '2026-03-04T10:30:12.250+01:00';
  expect(dateOfPull({ pulledOn: null, started })).toBe('2026-03-04 10:30');
  expect(dateOfPull({ pulledOn: '2019-05-14T09:05', started })).toBe('2019-05-14 09:05 stated');
  expect(dateOfPull({ pulledOn: '2019-05-14', started }, { asStated: (day) => `${day} *` })).toBe(
    '2019-05-14 *',
  );
});
