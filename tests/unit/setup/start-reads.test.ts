/** What a start reads before it answers: bundled as the program is, followed from its entry along what is read at once. */
import { build } from 'esbuild';
import { describe, expect, it } from 'vitest';
import { RECORDER_PACKAGES } from '../../../electron/setup/build.mjs';
import { projectFolder } from '../../../electron/setup/places.mjs';

/** Every file and library that the entry reads with itself. */
async function readWith(entry: string): Promise<ReadonlySet<string>> {
  const { metafile } = await build({
    absWorkingDir: projectFolder,
    entryPoints: [entry],
    bundle: true,
    write: false,
    metafile: true,
    outdir: 'nowhere',
    platform: 'node',
    format: 'cjs',
    external: ['electron', ...RECORDER_PACKAGES],
    define: { 'import.meta.url': 'undefined', 'import.meta.main': 'false' },
    logLevel: 'silent',
  });
  const read = new Set([entry]);
  for (const path of read)
    for (const { path: its, kind } of metafile.inputs[path]?.imports ?? [])
      if (kind !== 'dynamic-import') read.add(its);
  return read;
}

describe('what a start reads', () => {
  it('is, in the recorder’s own thread, neither database, ports’ libraries, child processes nor exports', async () => {
    const read = await readWith('electron/recorder/run-recorder.ts');
    expect(read).toContain('electron/recorder/requests.ts');
    const late = [
      'better-sqlite3',
      'serialport',
      '@serialport/stream',
      'node:child_process',
      'electron/recorder/export-pull.ts',
      'electron/recorder/export-results.ts',
      'electron/recorder/issue-certificate.ts',
      'electron/recorder/take-backup.ts',
    ];
    expect(late.filter((name) => read.has(name))).toEqual([]);
  });

  it('is, in the archive’s thread, not what is asked of the open archive', async () => {
    const read = await readWith('electron/recorder/archive-thread.ts');
    expect(read).toContain('better-sqlite3');
    expect(read).not.toContain('electron/recorder/archive-calls.ts');
  });
});
