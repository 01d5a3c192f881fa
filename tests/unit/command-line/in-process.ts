/** Runs the command line in this process and keeps what it wrote. */
import { mkdtempSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { runCommandLine } from '../../../electron/command-line/main.ts';

export interface Ran {
  readonly code: number;
  readonly out: string;
  readonly err: string;
}

export async function ran(...args: string[]): Promise<Ran> {
  const out: string[] = [];
  const err: string[] = [];
  const code = await runCommandLine(args, { out: (text) => out.push(text), err: (text) => err.push(text) });
  return { code, out: out.join('\n'), err: err.join('\n') };
}

/** Makes files in a folder of its own and hands out their paths. */
export function folderOfFiles(): (name: string, content: string | Uint8Array) => string {
  const folder = mkdtempSync(join(tmpdir(), 'gaugemark-test-'));
  return (name, content) => {
    const path = join(folder, name);
    writeFileSync(path, content);
    return path;
  };
}
