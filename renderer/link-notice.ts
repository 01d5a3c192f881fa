/**
 * What is said while there is no recorder to talk to. A start, and going over to another archive or to the tour, is no
 * warning: it is told once it takes longer than it mostly does. That one has died comes with its reason, and at once.
 */
import type { Fault } from '../core/contract/index.ts';
import type { Notice } from '../core/contract/notice.ts';
import type { RecorderLink } from '../core/contract/window-requests.ts';

/** A recorder that starts is there within this time on most machines; until then nothing is said of it. */
export const START_MS_MAX = 2_000;

export interface LinkNotice {
  readonly severity: Notice['severity'];
  readonly says: 'failed' | 'connecting' | Fault;
}

export interface LinkSeen {
  readonly link: RecorderLink | null;
  /** Why there is no session. */
  readonly fault: Fault | null;
  /** There was a recorder before: whatever it recorded is without this window now. */
  readonly hadSession: boolean;
  /** There has been none for longer than a start takes. */
  readonly takesLong: boolean;
}

export function linkNotice({ link, fault, hadSession, takesLong }: LinkSeen): LinkNotice | null {
  if (link?.state === 'failed') return { severity: 'alarm', says: link.fault ?? 'failed' };
  // Without a reason nothing has gone wrong: it was this program that let go of the one before.
  if (link?.state === 'connecting' && link.fault === null)
    return takesLong ? { severity: 'note', says: 'connecting' } : null;
  if (!hadSession && !takesLong) return null;
  const why = link?.state === 'connecting' ? link.fault : hadSession ? null : fault;
  return why === null ? null : { severity: 'warning', says: why };
}
