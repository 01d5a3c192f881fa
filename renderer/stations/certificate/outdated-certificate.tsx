/** Told where certificates were issued before what stands now. */
import { useSignal } from '@preact/signals';
import { useEffect } from 'preact/hooks';
import type { OutdatedCertificate } from '../../../core/contract/certificate-requests.ts';
import {
  type OutdatedAboutPull,
  type OutdatedCertificates,
  outdatedCertificatesOf,
  subjectOf,
} from '../../../core/evaluation/outdated-certificate.ts';
import { fixed, momentText } from '../../numbers/format.ts';
import { asked } from '../../store/asked.ts';
import { language } from '../../store/view-settings.ts';
import { words } from '../../words/words.ts';
import { CertificateOfPull, CertificateOfSet } from './certificate-of-pull.tsx';
import './certificate-station.css';

/** `name`: its number, with whatever tells it from others. */
export function Outdated({
  outdated: { number, issuedWallMs, evaluatedWallMs },
  name = number,
}: {
  readonly outdated: OutdatedCertificate;
  readonly name?: string;
}) {
  const text = words.value.set.certificate;
  const issued = momentText(issuedWallMs);
  return (
    <p class="outdated-certificate" role="note">
      ◆{' '}
      {evaluatedWallMs === null
        ? text.outdated(name, issued)
        : text.outdatedByEvaluation(name, issued, momentText(evaluatedWallMs))}
    </p>
  );
}

function nameOf(one: OutdatedAboutPull): string {
  const text = words.value.set.certificate;
  const of = text.subjects[subjectOf(one)](one.setName ?? '');
  return `${one.number} (${of}, ${text.paperLanguages[one.language]})`;
}

/** `standing`: number of the evaluation that stands; null where the pull stands as recorded. */
export function OutdatedOfPull({
  pullId,
  standing,
}: {
  readonly pullId: number;
  readonly standing: number | null;
}) {
  const found = useSignal<OutdatedCertificates | null>(null);
  useEffect(() => {
    let stale = false;
    // Where it can't be asked the certificate's own station says why.
    const asking = standing === null ? null : outdatedCertificatesOf(asked, pullId).catch(() => null);
    void Promise.resolve(asking).then((them) => {
      if (!stale) found.value = them;
    });
    return () => {
      stale = true;
    };
  }, [pullId, standing]);
  const { outdated = [], beyond = 0 } = found.value ?? {};
  if (outdated.length === 0 && beyond === 0) return null;
  const sets = new Map<number, string>();
  for (const { about, setName } of outdated)
    if ('setId' in about && about.setMemberId === undefined) sets.set(about.setId, setName ?? '');
  return (
    <div class="outdated-certificates">
      {outdated.map((one) => (
        <Outdated key={one.number} outdated={one} name={nameOf(one)} />
      ))}
      {beyond === 0 ? null : (
        <p class="pencil">{words.value.set.certificate.notLookedAt(fixed(beyond, 0, language.value))}</p>
      )}
      <div class="actions">
        {outdated.every((one) => subjectOf(one) === 'set') ? null : (
          <CertificateOfPull id="issue-again" pullId={pullId} />
        )}
        {[...sets].map(([setId, name]) => (
          <CertificateOfSet key={setId} setId={setId} name={name} />
        ))}
      </div>
    </div>
  );
}
