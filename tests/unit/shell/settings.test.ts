import { mkdtempSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterAll, describe, expect, it } from 'vitest';
import { SettingsFile } from '../../../electron/main/settings.ts';

const scratch = mkdtempSync(join(tmpdir(), 'gaugemark-settings-'));
afterAll(() => rmSync(scratch, { recursive: true }));

describe('what the window remembers', () => {
  it('is there at the next start', () => {
    const path = join(scratch, 'a', 'window.json');
    new SettingsFile(path).change({ theme: 'dark', place: { x: -5, y: 1, width: 1100, height: 800 } });
    expect(new SettingsFile(path).now).toMatchObject({ theme: 'dark', place: { x: -5 } });
  });

  it.each(['', 'null', '{', '{"theme":"pink"}', '[1]', '{"place":{"x":"left"}}'])(
    'falls back to the defaults when the file holds %j',
    (text) => {
      const path = join(scratch, 'damaged.json');
      writeFileSync(path, text);
      expect(new SettingsFile(path).now).toMatchObject({ theme: 'system', place: null });
    },
  );

  it('is set aside and named, and what was kept before counts (N10)', () => {
    const path = join(scratch, 'emptied', 'window.json');
    const first = new SettingsFile(path);
    first.change({ rulesFolder: '/shop/rules' });
    first.change({ theme: 'dark' });
    // What a power cut leaves of a file that was not synced.
    writeFileSync(path, '');
    const next = new SettingsFile(path);
    expect(next.now).toMatchObject({ rulesFolder: '/shop/rules', theme: 'system' });
    expect(next.setAsideTo).toMatch(/window\.json\.damaged-/);
    expect(readFileSync(next.setAsideTo ?? '', 'utf8')).toBe('');
    next.change({ theme: 'light' });
    expect(new SettingsFile(path)).toMatchObject({ now: { theme: 'light' }, setAsideTo: null });
  });

  it('counts as it was before where a change was cut between its two renames', () => {
    const path = join(scratch, 'cut', 'window.json');
    const settings = new SettingsFile(path);
    settings.change({ theme: 'dark' });
    settings.change({ theme: 'light' });
    rmSync(path);
    expect(new SettingsFile(path)).toMatchObject({ now: { theme: 'dark' }, setAsideTo: null });
  });

  it('keeps what it has in memory when it can not be written (D12)', () => {
    const blocked = join(scratch, 'plain-file');
    writeFileSync(blocked, '');
    const settings = new SettingsFile(join(blocked, 'window.json'));
    settings.change({ theme: 'light' });
    expect(settings.now.theme).toBe('light');
    expect(readFileSync(blocked, 'utf8')).toBe('');
  });
});
