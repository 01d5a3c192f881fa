/** A day as it is typed in the window: what it states, or what is wrong with it. */
import { liesAhead, statedAsTyped, statedDay } from '../../core/pull/stated-day.ts';
import { words } from '../words/words.ts';

export interface TypedDay {
  /** Null where nothing is typed, or no day. */
  readonly pulledOn: string | null;
  readonly fault: string | null;
}

export function statedOf(typed: string): TypedDay {
  const text = words.value.exchange;
  if (typed.trim() === '') return { pulledOn: null, fault: null };
  const read = statedDay.safeParse(statedAsTyped(typed));
  if (!read.success) return { pulledOn: null, fault: text.notADay };
  return liesAhead(read.data, Date.now())
    ? { pulledOn: null, fault: text.dayAhead }
    : { pulledOn: read.data, fault: null };
}
