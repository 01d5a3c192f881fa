/** Whether the newest certificate about a pull still says what stands. */
import type { OutdatedCertificate } from '../contract/certificate-requests.ts';
import type { Ask } from '../contract/index.ts';

/**
 * The certificate that was issued before the evaluation that stands, and says something else; null where there is none.
 * What it would say now is worked out only where the evaluation is the newer one.
 */
export async function outdatedCertificateOf(ask: Ask, pullId: number): Promise<OutdatedCertificate | null> {
  const { standing, certified } = await ask('evaluation.stated', { pullId });
  if (standing === null || certified === null || standing.keptWallMs <= certified.issuedWallMs) return null;
  const { outdated } = await ask('certificate.preview', { about: certified.about });
  return outdated === null ? null : { ...outdated, evaluatedWallMs: standing.keptWallMs };
}
