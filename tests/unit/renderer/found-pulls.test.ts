/** What a search has found is shown while it is asked anew, and read again only where it is looked at. */
import { afterEach, beforeEach, describe, expect, it } from 'vitest';
import type { Bridge } from '../../../core/contract/bridge.ts';
import {
  find,
  found,
  lines,
  linesStand,
  needLines,
  needPictures,
  pictures,
} from '../../../renderer/archive/found-pulls.ts';
import { archiveGeneration, connectStore } from '../../../renderer/store/session-store.ts';

/** The archive behind the bridge: how its lines call a pull, and which lines were asked for. */
const archive = { word: '', pullIds: [1, 2, 3], asked: [] as number[][] };
/** Where set, lines wait for it. */
let gate: Promise<void> | null = null;

function answerOf(name: string, payload: { pullIds?: number[] }): unknown {
  const pullIds = payload.pullIds ?? [];
  switch (name) {
    case 'archive.found':
      return { pullIds: Float64Array.from(archive.pullIds), index: null };
    case 'archive.lines':
      return { items: pullIds.map((pullId) => ({ pullId, specimenName: archive.word })) };
    case 'archive.thumbnails':
      return { curves: pullIds.map((pullId) => ({ pullId, bytes: new Uint8Array([1]) })) };
    default:
      return undefined;
  }
}
const bridge = {
  platform: 'linux',
  on: () => () => undefined,
  request: async (name: string, payload: { pullIds?: number[] }) => {
    const value = answerOf(name, payload);
    if (value === undefined) return { ok: false, fault: { code: 'refused', sentence: 'Not here.' } };
    if (name === 'archive.lines') {
      archive.asked.push([...(payload.pullIds ?? [])]);
      if (gate !== null) await gate;
    }
    return { ok: true, value };
  },
} as unknown as Bridge;

const wordOf = (pullId: number): string | undefined => lines.value.get(pullId)?.specimenName;
const generation = archiveGeneration.value;
let letGo: () => void;
beforeEach(async () => {
  letGo = connectStore(bridge);
  archiveGeneration.value++;
  archive.word = 'before';
  archive.pullIds = [1, 2, 3];
  await find({}, true);
  await needLines([1, 2, 3]);
  await needPictures([1, 2]);
  archive.asked = [];
  gate = null;
});
afterEach(() => {
  letGo();
  archiveGeneration.value = generation;
});

describe('coming back to the table', () => {
  it('does not say that there is nothing before the archive has said so again', async () => {
    archive.pullIds = [];
    await find({}, true);
    expect(found.value?.length).toBe(0);
    const again = find({}, true);
    expect(found.value).toBeNull();
    await again;
    expect(found.value?.length).toBe(0);
  });

  it('leaves what was found and its lines in sight, and reads again the lines that are looked at', async () => {
    const [held, stood] = [found.value, linesStand.value];
    archive.word = 'after';
    await find({}, true);
    expect(found.value).toBe(held);
    expect(wordOf(1)).toBe('before');
    expect(linesStand.value).toBeGreaterThan(stood);
    await needLines([1, 2]);
    expect([wordOf(1), wordOf(2), wordOf(3)]).toEqual(['after', 'after', 'before']);
    await needLines([1, 2]);
    expect(archive.asked).toEqual([[1, 2]]);
  });

  it('takes another order or another pull over', async () => {
    archive.pullIds = [3, 2, 1];
    await find({}, true);
    expect([...(found.value ?? [])]).toEqual([3, 2, 1]);
  });

  it('reads a line again whose answer was under way when something changed', async () => {
    let open = (): void => undefined;
    gate = new Promise((resolve) => (open = resolve));
    await find({}, true);
    const early = needLines([1]);
    archive.word = 'after';
    await find({}, true);
    const stood = linesStand.value;
    open();
    await early;
    expect(linesStand.value).toBeGreaterThan(stood);
    await needLines([1]);
    expect(archive.asked).toEqual([[1], [1]]);
    expect(wordOf(1)).toBe('after');
  });

  it('shows neither a line nor a picture of another archive', async () => {
    archiveGeneration.value++;
    await find({}, true);
    expect(lines.value.size).toBe(0);
    expect(pictures.value.size).toBe(0);
  });
});
