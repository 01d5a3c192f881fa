/** What is asked of the archive while it is checked. */
import { expect, it } from 'vitest';
import { BY_HAND, begunRecorder } from './begun-recorder.ts';

it('a search and an opened pull are answered while the archive is checked, and a record is not begun', async () => {
  const { ask, answered, specimenId } = await begunRecorder();
  for (let i = 0; i < 5; i++) await ask('pull.type', { specimenId, typed: { load: '50 kN' }, sure: true });
  const order: string[] = [];
  const noted = <T>(name: string, work: Promise<T>): Promise<T> => {
    void work.finally(() => order.push(name)).catch(() => undefined);
    return work;
  };
  const check = noted('check', ask('archive.check', {}));
  const search = noted('search', ask('archive.search', { query: {} }));
  const pull = noted('pull', ask('pull.get', { pullId: 3 }));
  const begun = answered('pull.ready', { specimenId, ...BY_HAND });
  expect((await search).items.length).toBe(5);
  expect((await pull).pullId).toBe(3);
  expect(await begun).toMatchObject({ ok: false, fault: { code: 'archive-busy' } });
  expect((await check).sound).toBe(true);
  expect(order).toEqual(['search', 'pull', 'check']);
});
