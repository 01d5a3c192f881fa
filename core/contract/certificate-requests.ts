/** Requests about certificates: of a set, of one specimen of it, or of a pull whose specimen is in no set. */
import { z } from 'zod';
import { atFirstUse } from '../at-first-use.ts';
import { CERTIFICATE_SCHEMA, type CertificateContent } from '../certificate/certificate-content.ts';
import { PAPER_LANGUAGES } from '../words/paper-words.ts';
import { rowId, wallMs } from './message.ts';

/** Made by this program's own core on the other side; its schema's name is checked, its shape is the type's. */
const certificateContent = z.custom<CertificateContent>(
  (v) => typeof v === 'object' && v !== null && 'schema' in v && v.schema === CERTIFICATE_SCHEMA,
  'is no content of a certificate',
);

/** What a certificate is about. A pull of a specimen that is in a set is certified by the rules of that set. */
export const certified = z.union([
  z.strictObject({ setId: rowId, setMemberId: rowId.optional() }),
  z.strictObject({ pullId: rowId }),
]);
export type Certified = z.infer<typeof certified>;

export const paperLanguage = z.enum(PAPER_LANGUAGES);

const about = z.strictObject({
  about: certified,
  /** Left out: that of the newest certificate about the same. */
  language: paperLanguage.optional(),
  /** Where none was issued either; English where this is left out too. */
  beginIn: paperLanguage.optional(),
});

const outdatedCertificate = z.strictObject({
  number: z.string(),
  issuedWallMs: wallMs,
  /** When a pull that it rests on was evaluated anew after that; null where something else has changed. */
  evaluatedWallMs: wallMs.nullable(),
});
export type OutdatedCertificate = z.infer<typeof outdatedCertificate>;

export const certificateRequests = {
  /**
   * What the certificate would say: nothing is issued by looking at it. The number, with its signatures, where the
   * same content was issued before; otherwise the one issued last, which says something else by now.
   */
  'certificate.preview': {
    request: about,
    reply: atFirstUse(() =>
      z.strictObject({
        content: certificateContent,
        number: z.string().nullable(),
        outdated: outdatedCertificate.nullable(),
      }),
    ),
  },
  /** What the certificate says, see core/certificate/certificate-content.ts; the first time it is issued. */
  'certificate.issue': {
    request: about,
    reply: atFirstUse(() =>
      z.strictObject({ number: z.string(), again: z.boolean(), content: certificateContent }),
    ),
  },
} as const;
