/** What a certificate says of readings that no frame sent to this program: simulated or replayed ones are evidence of nothing. */
import {
  ORIGIN_MARKS,
  ORIGIN_NOTICES,
  READINGS_ORIGINS,
  type ReadingsOrigin,
} from '../pull/readings-origin.ts';
import type { CertificateContent, SpecimenContent } from './certificate-content.ts';
import type { PaperText, PaperWords } from '../words/paper-words.ts';
import type { CertifiedSpecimen } from './certificate-input.ts';

export const ORIGIN_WORDS = {
  simulated: 'readings of the built-in simulated frame, scenario',
  'imported-simulated': 'readings of a simulated frame, taken over from the file',
  replay: 'bytes of the file',
  'imported-replay': 'bytes that were given out again, taken over from the file',
  imported: 'taken over from the file',
} as const satisfies Readonly<Record<ReadingsOrigin, PaperText>>;

/** For every page: one sentence for each kind, with the names of the specimens where it isn't all of them. */
export function readingsNotices(
  specimens: readonly CertifiedSpecimen[],
  { said }: PaperWords,
): Pick<CertificateContent, 'notices' | 'noticeMark'> {
  const kinds = READINGS_ORIGINS.filter((origin) => specimens.some((one) => one.record?.origin === origin));
  return {
    notices: kinds.map((origin) => {
      const names = specimens
        .filter((one) => one.record?.origin === origin)
        .map((one) => one.member.specimenId);
      return names.length === specimens.length
        ? said(ORIGIN_NOTICES[origin])
        : `${names.join(', ')}: ${said(ORIGIN_NOTICES[origin])}`;
    }),
    noticeMark: kinds.length === 0 ? null : kinds.map((origin) => said(ORIGIN_MARKS[origin])).join(', '),
  };
}

export function specimenReadings(
  { record }: CertifiedSpecimen,
  { said }: PaperWords,
): SpecimenContent['readings'] {
  const origin = record?.origin;
  return origin === undefined
    ? null
    : { mark: said(ORIGIN_MARKS[origin]), notice: said(ORIGIN_NOTICES[origin]) };
}
