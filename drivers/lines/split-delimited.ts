/** Fields with a delimiter of one or several characters between them. */
import type { LineFormatOf } from '../../core/contract/readout-profile.ts';
import type { LineSplitter } from './line-splitter.ts';

/** The number of fields is frozen: a line with a field more or less does not fit, so nothing can slip sideways. */
export function splitDelimited(format: LineFormatOf<'delimited'>): LineSplitter {
  const { delimiter, mergeRepeated } = format;
  const count = format.fields.length;
  if (!mergeRepeated) {
    const last = count - 1;
    return (text) => {
      const fields: string[] = [];
      let from = 0;
      for (let index = 0; index < last; index++) {
        const at = text.indexOf(delimiter, from);
        if (at === -1) return null;
        fields.push(text.slice(from, at));
        from = at + delimiter.length;
      }
      if (text.includes(delimiter, from)) return null;
      fields.push(text.slice(from));
      return fields;
    };
  }
  return (text) => {
    const fields = text.split(delimiter).filter((field) => field !== '');
    return fields.length === count ? fields : null;
  };
}
