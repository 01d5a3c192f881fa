/** HTML made from text that anybody may have typed: escaped always, and kept from turning round what stands beside it. */
import { escapedMarkup } from '../../drawing/escaped-markup.ts';

/** Markup that is known to be sound; only made here. */
export interface Markup {
  readonly html: string;
}

/** A text on its own: `bdi` keeps its direction from what stands around it. */
export const typed = (text: string): Markup => ({ html: `<bdi>${escapedMarkup(text)}</bdi>` });

export const ready = (html: string): Markup => ({ html });

/** Template for HTML: texts are escaped, markup is taken as it is, lists are joined. */
export function html(
  parts: TemplateStringsArray,
  ...values: readonly (string | Markup | readonly Markup[])[]
): Markup {
  const inserted = values.map((value) => {
    if (typeof value === 'string') return escapedMarkup(value);
    return 'html' in value ? value.html : value.map((one) => one.html).join('');
  });
  return { html: parts.map((part, i) => part + (inserted[i] ?? '')).join('') };
}

export const NOTHING: Markup = { html: '' };
