import { expect, it } from 'vitest';
import { terminalText } from '../../../electron/command-line/terminal-text.ts';

it('shows what would move the cursor, colour the terminal or turn the direction, and leaves the rest', () => {
  expect(terminalText('A\u001b[31m\u202eB\u009b2J')).toBe('A\\u001b[31m\\u202eB\\u009b2J');
  const plain = 'Žofie, مرحبا, <b>x</b>\tRm\n';
  expect(terminalText(plain)).toBe(plain);
});

it('leaves a JSON document the same document', () => {
  const document = { name: 'A\u202eB\u001b[0m\u009b\r' };
  expect(JSON.parse(terminalText(JSON.stringify(document, null, 2)))).toEqual(document);
});
