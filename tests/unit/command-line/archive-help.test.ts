/** `gaugemark help archive`: what there is fits on a screen, and each of its verbs is told whole. */
import { describe, expect, it } from 'vitest';
import { ARCHIVE_ACTIONS, ARCHIVE_PARTS } from '../../../electron/command-line/archive-help.ts';
import { EVALUATION_FLAGS } from '../../../electron/command-line/evaluation-flags.ts';
import { SEARCH_FLAGS } from '../../../electron/command-line/search-flags.ts';
import { ran } from './in-process.ts';

/** A terminal of the usual height and a wide one's columns. */
const [LINES_MAX, COLUMNS_MAX] = [45, 120];

describe('help about the archive', () => {
  it('names every verb once, in one line, by what somebody wants', async () => {
    const { code, out } = await ran('help', 'archive');
    expect(code).toBe(0);
    const lines = out.split('\n');
    expect(lines.length).toBeLessThanOrEqual(LINES_MAX);
    expect(Math.max(...lines.map((line) => line.length))).toBeLessThanOrEqual(COLUMNS_MAX);
    for (const want of ['Find', 'Look', 'Correct', 'Take in', 'Give out', 'Keep safe'])
      expect(lines).toContain(want);
    for (const action of ARCHIVE_ACTIONS)
      expect(lines.filter((line) => line.startsWith(`  ${action} `))).toHaveLength(1);
    expect(await ran('archive', '--help')).toEqual({ code, out, err: '' });
  });

  it.each(ARCHIVE_ACTIONS)('tells the whole of archive %s, asked either way', async (action) => {
    const { code, out } = await ran('help', 'archive', action);
    expect(code).toBe(0);
    expect(out).toMatch(new RegExp(`^gaugemark archive ${action} `));
    expect(out).toMatch(new RegExp(`^  ${action}(?: |$)`, 'm'));
    expect((await ran('archive', action, '--help')).out).toBe(out);
    const others = ARCHIVE_ACTIONS.filter((other) => other !== action);
    for (const other of others) expect(out).not.toContain(`gaugemark archive ${other} `);
  });

  it('tells filters and options of an evaluation wherever they are taken', () => {
    const told = (flags: object, action: keyof typeof ARCHIVE_PARTS) =>
      Object.keys(flags).filter((flag) => !ARCHIVE_PARTS[action].includes(`--${flag}`));
    for (const action of ['list', 'search', 'trend', 'evaluate-again'] as const)
      expect([action, told(SEARCH_FLAGS, action)]).toEqual([action, []]);
    for (const action of ['show', 'evaluate', 'evaluate-again'] as const)
      expect([action, told(EVALUATION_FLAGS, action)]).toEqual([action, []]);
  });

  it('says which verb may be meant', async () => {
    expect(await ran('help', 'archive', 'mrege')).toMatchObject({
      code: 2,
      out: '',
      err: expect.stringMatching(
        /^There is no verb "archive mrege"; did you mean archive merge\? The verbs are list, /,
      ) as string,
    });
    // A verb without others of its own says all of itself.
    expect((await ran('help', 'set', 'join')).out).toBe((await ran('help', 'set')).out);
  });
});
