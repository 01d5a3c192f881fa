/** A worksheet half typed for one instrument is there again when one comes back from another one. */
import { afterEach, expect, it } from 'vitest';
import { extensionSheets } from '../../../renderer/instruments/extension-draft.ts';
import {
  changeLine,
  changeWorksheet,
  forceSheets,
  worksheetDraft,
} from '../../../renderer/instruments/worksheet-draft.ts';
import { typedNotKept } from '../../../renderer/store/held-typing.ts';
import { archivePath } from '../../../renderer/store/session-store.ts';

const HOME = '/pulls/home.gaugemark';
archivePath.value = HOME;
/** As the page does when it goes over to the worksheet of an instrument. */
const goOver = (instrumentId: number): void =>
  forceSheets.show(forceSheets.held.of(instrumentId, () => forceSheets.begin('kN')).draft);
afterEach(() => {
  archivePath.value = HOME;
  for (const instrumentId of [1, 2]) forceSheets.held.letGo(instrumentId);
});

it('keeps the worksheets of two instruments apart, whichever is on the page', () => {
  goOver(1);
  changeWorksheet({ resolution: '0.01' });
  changeLine(0, { applied: '20' });
  goOver(2);
  expect(worksheetDraft.value).toMatchObject({ resolution: '', lines: [{ applied: '' }, {}, {}, {}, {}] });
  changeLine(1, { applied: '50' });
  goOver(1);
  expect(worksheetDraft.value).toMatchObject({
    resolution: '0.01',
    lines: [{ applied: '20' }, {}, {}, {}, {}],
  });
  expect(worksheetDraft.value.lines[1]?.applied).toBe('');
  goOver(2);
  expect(worksheetDraft.value.lines[1]?.applied).toBe('50');
});

it('tells before closing of a worksheet that is not on the page, until each is kept or given up', () => {
  goOver(1);
  changeLine(0, { applied: '20' });
  goOver(2);
  expect(typedNotKept.value).toContain('forces');
  forceSheets.held.letGo(1);
  expect(typedNotKept.value).not.toContain('forces');
});

it('takes a unit that was chosen for no figure that was typed', () => {
  goOver(1);
  changeWorksheet({ unit: 'lbf' });
  expect(forceSheets.held.isTyped(1)).toBe(false);
  changeWorksheet({ reference: 'ring 12' });
  expect(forceSheets.held.isTyped(1)).toBe(true);
});

it('is of its archive, and of its kind', () => {
  goOver(1);
  changeLine(0, { applied: '20' });
  expect(extensionSheets.held.isTyped(1)).toBe(false);
  archivePath.value = '/pulls/other.gaugemark';
  goOver(1);
  expect(worksheetDraft.value.lines[0]?.applied).toBe('');
});
