/** What is remembered of certificates while the window is open: of the newest of them only. */
import { expect, it } from 'vitest';
import {
  chooseLanguageFor,
  chosenLanguages,
  languageChosenFor,
  numberSeen,
  sawNumber,
} from '../../../renderer/stations/certificate/certificate-choice.ts';

it('does not grow without end, and what was seen longest ago goes', () => {
  const FAR = 600;
  for (let pullId = 1; pullId <= FAR; pullId++) {
    sawNumber({ pullId }, `C-${String(pullId)}`);
    chooseLanguageFor({ pullId }, 'es');
    // Seen again and again it is no old one.
    sawNumber({ pullId: 1 }, 'C-1');
    chooseLanguageFor({ pullId: 1 }, 'en');
  }
  expect(chosenLanguages.value.of.size).toBeLessThan(FAR);
  expect([numberSeen({ pullId: 2 }), languageChosenFor({ pullId: 2 })]).toEqual([undefined, undefined]);
  for (const [pullId, language] of [
    [1, 'en'],
    [FAR, 'es'],
    [FAR - 100, 'es'],
  ] as const)
    expect([numberSeen({ pullId }), languageChosenFor({ pullId })]).toEqual([
      `C-${String(pullId)}`,
      language,
    ]);
});
