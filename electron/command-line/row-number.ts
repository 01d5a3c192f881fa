/** The number of a set, a specimen or an instrument as it is typed. */
import { InputError } from './verb.ts';

const SHOWN_BY = {
  set: '"gaugemark set list" shows them',
  specimen: '"gaugemark set show" and "archive list --json" show them',
  instrument: '"gaugemark instruments list" shows them',
};

/** `field`: the option or argument that it was given with. Throws an InputError. */
export function rowNumber(text: string, of: keyof typeof SHOWN_BY, field: string = of): number {
  const id = Number(text);
  if (!/^[1-9]\d*$/.test(text) || !Number.isSafeInteger(id))
    throw new InputError(
      `${of}-number-wrong`,
      `"${text.slice(0, 40)}" is no number of ${of === 'instrument' ? 'an' : 'a'} ${of}; ${SHOWN_BY[of]}.`,
      field,
    );
  return id;
}
