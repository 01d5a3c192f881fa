/** What the terminal reads through may close early, as `head` does once it has its lines. */
import { spawn } from 'node:child_process';
import { fileURLToPath } from 'node:url';
import { expect, it } from 'vitest';

const MAIN = fileURLToPath(new URL('../../../electron/command-line/main.ts', import.meta.url));

it('a reader that has gone is no fault: the job is done to its end, and nothing is said', async () => {
  const child = spawn(process.execPath, [MAIN, 'help']);
  child.stdout.destroy();
  let said = '';
  child.stderr.on('data', (chunk: Buffer) => (said += chunk.toString()));
  const code = await new Promise<number | null>((resolve) => child.on('close', resolve));
  expect(said).toBe('');
  expect(code).toBe(0);
});
