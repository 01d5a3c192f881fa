/** What people must know now: one line each, over the sheet, until it is over. */
import { useSignal } from '@preact/signals';
import { useEffect } from 'preact/hooks';
import type { Notice } from '../core/contract/notice.ts';
import { SetArchiveAside } from './archive/set-archive-aside.tsx';
import { Button } from './design/button.tsx';
import { BackupNotice } from './exchange/backup-notice.tsx';
import { START_MS_MAX, linkNotice } from './link-notice.ts';
import { notices, recorderLink, request, session, sessionFault } from './store/session-store.ts';
import { clockText } from './numbers/format.ts';
import { LearnInstead } from './stations/readout/learn-instead.tsx';
import { told } from './words/told.ts';
import { words } from './words/words.ts';
import './notices.css';

const SIGN: Readonly<Record<Notice['severity'], string>> = { note: '■', warning: '◆', alarm: '▲' };

export function Notices() {
  const text = words.value.notices;
  const takesLong = useSignal(false);
  const isWaiting = session.value === null || recorderLink.value?.state === 'connecting';
  useEffect(() => {
    if (!isWaiting) return;
    const timer = setTimeout(() => (takesLong.value = true), START_MS_MAX);
    return () => {
      clearTimeout(timer);
      takesLong.value = false;
    };
  }, [isWaiting]);
  const link = linkNotice({
    link: recorderLink.value,
    fault: sessionFault.value,
    hadSession: session.value !== null,
    takesLong: takesLong.value,
  });
  const archiveFault = session.value?.archive.fault ?? null;
  return (
    <div class="notices" role="log" aria-live="assertive" aria-relevant="additions" aria-label={text.title}>
      {link === null ? null : (
        <p class="notice" data-severity={link.severity}>
          <strong>
            {SIGN[link.severity]} {text.severity[link.severity]}
          </strong>
          <span>{typeof link.says === 'string' ? text[link.says] : told(link.says.sentence)}</span>
          {link.severity === 'alarm' ? (
            <Button kind="compact" onPress={() => void request('recorder.try-again', {})}>
              {text.tryAgain}
            </Button>
          ) : null}
        </p>
      )}
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
