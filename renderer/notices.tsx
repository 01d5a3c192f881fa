/** What people must know now: one line each, over the sheet, until it is over. */
import type { Notice } from '../core/contract/notice.ts';
import { SetArchiveAside } from './archive/set-archive-aside.tsx';
import { Button } from './design/button.tsx';
import { BackupNotice } from './exchange/backup-notice.tsx';
import { notices, recorderLink, request, session, sessionFault } from './store/session-store.ts';
import { clockText } from './numbers/format.ts';
import { LearnInstead } from './stations/readout/learn-instead.tsx';
import { told } from './words/told.ts';
import { words } from './words/words.ts';
import './notices.css';

const SIGN: Readonly<Record<Notice['severity'], string>> = { note: '■', warning: '◆', alarm: '▲' };

export function Notices() {
  const text = words.value.notices;
  const link = recorderLink.value;
  const fault = sessionFault.value;
  const archiveFault = session.value?.archive.fault ?? null;
  return (
    <div class="notices" role="log" aria-live="assertive" aria-relevant="additions" aria-label={text.title}>
      {link !== null && link.state !== 'connected' ? (
        <p class="notice" data-severity={link.state === 'failed' ? 'alarm' : 'warning'}>
          <strong>
            {SIGN[link.state === 'failed' ? 'alarm' : 'warning']}{' '}
            {text.severity[link.state === 'failed' ? 'alarm' : 'warning']}
          </strong>
          <span>
            {link.fault === null
              ? link.state === 'failed'
                ? text.failed
                : text.connecting
              : told(link.fault.sentence)}
          </span>
          {link.state === 'failed' ? (
            <Button kind="compact" onPress={() => void request('recorder.try-again', {})}>
              {text.tryAgain}
            </Button>
          ) : null}
        </p>
      ) : fault !== null && session.value === null ? (
        <p class="notice" data-severity="warning">
          <strong>
            {SIGN.warning} {text.severity.warning}
          </strong>
          <span>{told(fault.sentence)}</span>
        </p>
      ) : null}
      {archiveFault === null ? null : (
        <p class="notice" data-severity="alarm">
          <strong>
            {SIGN.alarm} {text.severity.alarm}
          </strong>
          <span>
            {text.noArchive} {told(archiveFault.sentence)}
          </span>
          <Button kind="compact" onPress={() => void request('archive.retry', {})}>
            {text.retryArchive}
          </Button>
          {archiveFault.code === 'archive-damaged' ? <SetArchiveAside /> : null}
        </p>
      )}
      {[...notices.value.values()].map((notice) => (
        <p class="notice" data-severity={notice.severity} key={notice.code}>
          <strong>
            {SIGN[notice.severity]} {text.severity[notice.severity]}
          </strong>
          <span>{told(notice.sentence)}</span>
          {notice.remedy === undefined ? null : <LearnInstead remedy={notice.remedy} />}
          <span class="pencil small">{text.since(clockText(notice.since))}</span>
        </p>
      ))}
      <BackupNotice />
    </div>
  );
}
