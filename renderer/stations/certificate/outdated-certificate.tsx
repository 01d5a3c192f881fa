/** Told where a certificate was issued before what stands now. */
import { useSignal } from '@preact/signals';
import { useEffect } from 'preact/hooks';
import type { OutdatedCertificate } from '../../../core/contract/certificate-requests.ts';
import { outdatedCertificateOf } from '../../../core/evaluation/outdated-certificate.ts';
import { momentText } from '../../numbers/format.ts';
import { asked } from '../../store/asked.ts';
import { words } from '../../words/words.ts';
import { CertificateOfPull } from './certificate-of-pull.tsx';
import './certificate-station.css';

export function Outdated({ outdated }: { readonly outdated: OutdatedCertificate }) {
  const text = words.value.set.certificate;
  const { number, issuedWallMs, evaluatedWallMs } = outdated;
  const issued = momentText(issuedWallMs);
  return (
    <p class="outdated-certificate" role="note">
      ◆{' '}
      {evaluatedWallMs === null
        ? text.outdated(number, issued)
        : text.outdatedByEvaluation(number, issued, momentText(evaluatedWallMs))}
    </p>
  );
}

/** `standing`: number of the evaluation that stands; null where the pull stands as recorded. */
export function OutdatedOfPull({
  pullId,
  standing,
}: {
  readonly pullId: number;
  readonly standing: number | null;
}) {
  const outdated = useSignal<OutdatedCertificate | null>(null);
  useEffect(() => {
    let stale = false;
    // Where it can't be asked the certificate's own station says why.
    const found = standing === null ? null : outdatedCertificateOf(asked, pullId).catch(() => null);
    void Promise.resolve(found).then((one) => {
      if (!stale) outdated.value = one;
    });
    return () => {
      stale = true;
    };
  }, [pullId, standing]);
  if (outdated.value === null) return null;
  return (
    <div class="actions">
      <Outdated outdated={outdated.value} />
      <CertificateOfPull id="issue-again" pullId={pullId} />
    </div>
  );
}
