/** A number of a readout is not called twice what it is. */
import { afterEach, describe, expect, it } from 'vitest';
import { numberNamed } from '../../../renderer/stations/readout/number-named.ts';
import { changeView } from '../../../renderer/store/view-settings.ts';

afterEach(() => changeView({ language: 'en' }));

describe.each([
  ['en', 'load', 'extension', 'travel of the crosshead'],
  ['es', 'carga', 'extensión', 'recorrido del travesaño'],
] as const)('in %s', (language, load, extension, travel) => {
  it('stands once where it is called what it is, however that is written', () => {
    changeView({ language });
    for (const field of ['load', 'Load', ' LOAD ', load])
      expect(numberNamed(field, 'force')).toEqual({ called: load, is: null });
    expect(numberNamed('extension', 'extension')).toEqual({ called: extension, is: null });
    // "travel travel of the crosshead" says it twice as well.
    expect(numberNamed('travel', 'travel')).toEqual({ called: travel, is: null });
  });

  it('is named and explained where its name does not say what it is', () => {
    changeView({ language });
    expect(numberNamed('CH2', 'force')).toEqual({ called: 'CH2', is: load });
    // The name of one thing and the numbers of another: both are told.
    expect(numberNamed('load', 'extension').is).toBe(extension);
  });
});
