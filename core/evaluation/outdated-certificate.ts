/** Which certificates about a pull still say what stands, and which don't. */
import type { CertificateOnPull } from '../contract/evaluation-requests.ts';
import type { Ask } from '../contract/index.ts';

/** One that was issued before the evaluation that stands, and says something else. */
export interface OutdatedAboutPull extends CertificateOnPull {
  readonly evaluatedWallMs: number;
}

export interface OutdatedCertificates {
  /** Newest first; at most CERTIFICATES_LOOKED_AT_MAX. */
  readonly outdated: readonly OutdatedAboutPull[];
  /** Older ones that were not looked at. */
  readonly beyond: number;
}

/**
 * Of its set, its specimen and the pull itself, in each language, the newest certificate where it says something else by
 * now. What it would say is worked out only where the evaluation is the newer one. Throws what `ask` throws.
 */
export async function outdatedCertificatesOf(ask: Ask, pullId: number): Promise<OutdatedCertificates> {
  const { standing, certificates } = await ask('evaluation.stated', { pullId });
  if (standing === null) return { outdated: [], beyond: 0 };
  const outdated: OutdatedAboutPull[] = [];
  for (const { number, issuedWallMs, about, setName, language } of certificates.newest) {
    if (standing.keptWallMs <= issuedWallMs) continue;
    const now = await ask('certificate.preview', { about, language });
    // Another number: a newer one has its place, of the set that the specimen was put into since, or on a newer pull.
    const saysOtherwise = now.number === null && (now.outdated?.number ?? number) === number;
    if (saysOtherwise)
      outdated.push({ number, issuedWallMs, about, setName, language, evaluatedWallMs: standing.keptWallMs });
  }
  return { outdated, beyond: certificates.beyond };
}

/** What it is about, for words of it. */
export const subjectOf = ({ about }: OutdatedAboutPull): 'set' | 'specimen' | 'pull' =>
  'pullId' in about ? 'pull' : about.setMemberId === undefined ? 'set' : 'specimen';
