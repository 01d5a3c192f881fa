/** A day as it is typed: read whatever sign stands in it, never guessed, moved by a day, and told once it is wrong. */
import { afterEach, describe, expect, it } from 'vitest';
import { dayHere, dayLater, isDay, typedDay } from '../../../core/calendar-day.ts';
import { statedAsTyped } from '../../../core/pull/stated-day.ts';
import { EMPTY_SEARCH, readSearch } from '../../../renderer/archive/search-draft.ts';
import { steppedDay } from '../../../renderer/design/date-field.tsx';

const ZONE = process.env['TZ'];
afterEach(() => {
  if (ZONE === undefined) delete process.env['TZ'];
  else process.env['TZ'] = ZONE;
});

const queryOf = (fromDay: string, toDay = '') => readSearch({ ...EMPTY_SEARCH, fromDay, toDay }, 'SI');

describe('a day', () => {
  it('is one of the calendar', () => {
    expect(['2028-02-29', '2026-12-31'].every(isDay)).toBe(true);
    expect(['2026-02-29', '2026-13-01', '26-1-1', '2026-1-01', 'tomorrow', ''].some(isDay)).toBe(false);
  });

  it.each([
    '2026-03-04',
    ' 2026-3-4 ',
    '2026/03/04',
    '2026.3.4',
    '2026 03 04',
    '20260304',
    '2026‑03‑04',
    '2026 – 3 – 4',
  ])('is read where it is typed %j', (typed) => {
    expect(typedDay(typed)).toEqual({ day: '2026-03-04', time: null });
    expect(queryOf(typed)).toEqual({ ok: true, query: { fromDay: '2026-03-04' } });
  });

  it.each(['04.03.2026', '3/4/2026', '2026-03', '2026-0', '26-03-04', '2026-02-30', '2026-03-04-05', 'May'])(
    'is not guessed of %j, which finds nothing meanwhile',
    (typed) => {
      expect(typedDay(typed)).toBeNull();
      expect(queryOf(typed)).toEqual({ ok: false, field: 'fromDay' });
      expect(queryOf('', typed)).toEqual({ ok: false, field: 'toDay' });
    },
  );

  it('has a time where a pull is stated, and none in a search', () => {
    expect(statedAsTyped('2019/5/14 9:30')).toBe('2019-05-14T09:30');
    expect(statedAsTyped('14.5.2019 9:30')).toBe('14.5.2019 9:30');
    expect(queryOf('2019-05-14 09:30')).toEqual({ ok: false, field: 'fromDay' });
  });

  it('as the last one is told to lie before the first', () => {
    expect(queryOf('2026-03-04', '2026/3/3')).toEqual({ ok: false, field: 'toDay' });
    expect(queryOf('2026-03-04', '2026/3/4').ok).toBe(true);
  });

  it('is stepped over the ends of months and years, begins with today, and leaves alone what is no day', () => {
    const now = new Date('2026-03-04T12:00:00Z');
    expect(steppedDay('2026/2/28', 1, now)).toBe('2026-03-01');
    expect(steppedDay('2026-01-01', -1, now)).toBe('2025-12-31');
    expect(steppedDay('', 1, now)).toBe('2026-03-04');
    expect(steppedDay('2026-03-', 1, now)).toBeNull();
    expect(dayLater('9999-12-31', 1)).toBe('9999-12-31');
    expect(dayLater('0000-01-01', -1)).toBe('0000-01-01');
  });

  it('is today by the clock of the place, not by UTC', () => {
    process.env['TZ'] = 'Pacific/Auckland';
    expect(dayHere(new Date('2026-03-04T20:00:00Z'))).toBe('2026-03-05');
  });
});
