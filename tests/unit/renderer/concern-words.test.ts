/** What is said of scale and offset that nobody set: it names the way there only where no button beside it leads there. */
import { expect, it } from 'vitest';
import { concernWords } from '../../../renderer/instruments/concern-words.ts';
import { en } from '../../../renderer/words/en.ts';
import { es } from '../../../renderer/words/es.ts';

it.each([
  { words: en, set: /nobody has set them (\(.*\) )?or named/ },
  { words: es, set: /nadie los ha fijado (\(.*\) )?ni ha nombrado/ },
])('names the station where there is no button', ({ words, set }) => {
  const concern = { code: 'default-factors', instrumentId: null } as const;
  const [alone, beside] = [concernWords(concern, [], words), concernWords(concern, [], words, true)];
  expect(alone).toMatch(set);
  expect(beside).toMatch(set);
  expect(alone).toContain(words.learn.factors.title);
  expect(beside).not.toContain(words.learn.factors.title);
});
