/** What is said while there is no recorder to talk to; at a start only once it takes longer than it mostly does. */
import type { Fault } from '../core/contract/index.ts';
import type { Notice } from '../core/contract/notice.ts';
import type { RecorderLink } from '../core/contract/window-requests.ts';

/** A recorder that starts is there within this time on most machines. */
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
  /** The page has been there for longer than a start takes. */
  readonly takesLong: boolean;
}

export function linkNotice({ link, fault, hadSession, takesLong }: LinkSeen): LinkNotice | null {
  if (link?.state === 'failed') return { severity: 'alarm', says: link.fault ?? 'failed' };
  if (!hadSession && !takesLong) return null;
  if (link?.state === 'connecting')
    return {
      severity: hadSession || link.fault !== null ? 'warning' : 'note',
      says: link.fault ?? 'connecting',
    };
  return fault === null || hadSession ? null : { severity: 'warning', says: fault };
}
