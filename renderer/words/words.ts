/** The texts of the chosen language. */
import { computed } from '@preact/signals';
import { language } from '../store/view-settings.ts';
import { type Words, en } from './en.ts';
import { es } from './es.ts';

const LANGUAGES: Readonly<Record<'en' | 'es', Words>> = { en, es };

/** Read `.value` inside a component and it follows the language. */
export const words = computed<Words>(() => LANGUAGES[language.value]);
