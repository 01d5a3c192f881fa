/** Fields with a delimiter of one or several characters between them. */
import type { LineFormatOf } from '../../core/contract/readout-profile.ts';
import type { LineSplitter } from './line-splitter.ts';

/** The number of fields is frozen: a line with a field more or less does not fit, so nothing can slip sideways. */
export function splitDelimited(format: LineFormatOf<'delimited'>): LineSplitter {
  const { delimiter, mergeRepeated } = format;
  const count = format.fields.length;
  if (!mergeRepeated) {
    return (text) => {
      const fields = text.split(delimiter);
      return fields.length === count ? fields : null;
    };
  }
  return (text) => {
    const fields = text.split(delimiter).filter((field) => field !== '');
    return fields.length === count ? fields : null;
  };
}
