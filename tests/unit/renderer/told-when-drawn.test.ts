/** What the page holds of its own sentences is told when it is drawn: in the language of then, not of when it came. */
import { afterEach, expect, it, vi } from 'vitest';
import type { Bridge } from '../../../core/contract/bridge.ts';
import { said, say } from '../../../renderer/design/said.tsx';
import { lay, laid, layNothing, nameOfLaid } from '../../../renderer/overlay/laid-pulls.ts';
import { readPull } from '../../../renderer/overlay/read-pull.ts';
import { readProfileText } from '../../../renderer/stations/readout/profile-file.ts';
import { connectStore } from '../../../renderer/store/session-store.ts';
import { changeView } from '../../../renderer/store/view-settings.ts';
import { en } from '../../../renderer/words/en.ts';
import { es } from '../../../renderer/words/es.ts';

const TYPED = 3;
const MISSING = 4;

const bridge = {
  platform: 'linux',
  on: () => () => undefined,
  request: async (_name: string, { pullId }: { readonly pullId?: number }) =>
    Promise.resolve(
      pullId === TYPED
        ? {
            ok: true,
            value: { specimenName: 'T-3', readingCount: 0, gaps: [], typed: {}, state: 'ended' },
          }
        : {
            ok: false,
            fault: { code: 'no-such-pull', sentence: `There is no pull ${String(pullId)} in this archive.` },
          },
    ),
};
connectStore(bridge as unknown as Bridge);

afterEach(() => {
  layNothing();
  changeView({ language: 'en' });
});

it('why a curve can not be drawn, in the legend and where one pull is exported as a picture', async () => {
  await lay([TYPED, MISSING]);
  const legend = (): (string | null | undefined)[] => laid.value.map(({ words }) => words?.());
  expect(legend()).toEqual([en.look.noCurve, 'There is no pull 4 in this archive.']);
  const read = await readPull(TYPED, { room: () => 1, isWanted: () => true, onNamed: () => undefined });
  changeView({ language: 'es' });
  expect(legend()).toEqual([es.look.noCurve, 'En este archivo no hay ningún ensayo 4.']);
  expect(read.ok ? null : read.why()).toBe(es.look.noCurve);
});

it('the name of a pull that is not known by its specimen', async () => {
  await lay([MISSING]);
  changeView({ language: 'es' });
  expect(laid.value.map(nameOfLaid)).toEqual([es.set.pullNumber('4')]);
});

it.each([
  ['no JSON', '{', 'fileNotJson'],
  ['no profile', '{"name": "ours"}', 'fileWrong'],
] as const)('what is wrong with a file that holds %s', (_what, text, word) => {
  const outcome = readProfileText({ name: 'ours.json', text });
  if (outcome.ok) throw new Error('taken for a profile');
  expect(outcome.sentenceIn(en.readout)).toMatch(en.readout[word]('ours.json', '').slice(0, 25));
  expect(outcome.sentenceIn(es.readout)).toMatch(es.readout[word]('ours.json', '').slice(0, 25));
});

it('not the line at the foot, which goes, with what waits behind it', () => {
  vi.useFakeTimers();
  say('The specimen is kept.');
  say('The pull is kept.');
  changeView({ language: 'es' });
  expect(said.value).toBe('');
  vi.runAllTimers();
  expect(said.value).toBe('');
  vi.useRealTimers();
});
