/** Names of looks and languages. Without schemas, so that what has to be quick need not build any. */

/** `contrast` stands on a dark window frame. */
export const THEMES = ['system', 'light', 'dark', 'contrast'] as const;
export type Theme = (typeof THEMES)[number];

export const LANGUAGES = ['en', 'es'] as const;
export type Language = (typeof LANGUAGES)[number];

/** What the size of the page is changed to, under the names that the page has for it. */
export const PAGE_SIZES = ['larger', 'smaller', 'natural-size', 'full-screen'] as const;
export type PageSize = (typeof PAGE_SIZES)[number];
