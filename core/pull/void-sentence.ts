/** How a void pull is told: on the page, the command line and the certificate alike. */
import type { PullVoid } from '../contract/void-requests.ts';
import { momentText } from '../exchange/export/moment-text.ts';

/** "pull 4 is void (operator 2, 2026-11-25T10:00:00.000+01:00): the grips slipped; it does not count". */
export function voidSentence(pullId: number, { reason, by, wallMs, utcOffsetMinutes }: PullVoid): string {
  return `pull ${String(pullId)} is void (${by ?? 'nobody named'}, ${momentText(wallMs, utcOffsetMinutes)}): ${reason}; it does not count`;
}
