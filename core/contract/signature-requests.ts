/** Requests about signatures: a name under a certificate as it is, with the moment and what the signature means. */
import { z } from 'zod';
import { atFirstUse } from '../at-first-use.ts';
import { NAME_LENGTH_MAX } from '../limits.ts';
import { certified } from './certificate-requests.ts';
import { rowId, utcOffsetMinutes, wallMs } from './message.ts';
import { pin } from './people-requests.ts';

export const SIGNATURE_MEANINGS = [
  'tested by',
  'evaluated by',
  'reviewed by',
  'approved by',
  'witnessed by',
] as const;
/** Signatures under one certificate. */
const SIGNATURES_MAX = 20;

export const signature = atFirstUse(() =>
  z.strictObject({
    signatureId: rowId,
    number: z.string(),
    /** Of the content of the certificate that was signed, hexadecimal. */
    contentSha256: z.string().regex(/^[0-9a-f]{64}$/),
    printedName: z.string(),
    meaning: z.string(),
    byPin: z.boolean(),
    wallMs,
    utcOffsetMinutes,
  }),
);
export type Signature = z.infer<typeof signature>;

export const signatureRequests = {
  /**
   * Signs a certificate under the number that the person has read. Refused where what
   * it says has changed since: then it is written anew, under another number, without signatures.
   */
  'certificate.sign': {
    request: atFirstUse(() =>
      z.strictObject({
        about: certified,
        number: z.string().min(1).max(NAME_LENGTH_MAX),
        /** A person of this machine, or else a name. */
        personId: rowId.optional(),
        printedName: z.string().trim().min(1).max(NAME_LENGTH_MAX).optional(),
        meaning: z.enum(SIGNATURE_MEANINGS),
        pin: pin.optional(),
      }),
    ),
    reply: z.strictObject({ signature }),
  },
  'certificate.signatures': {
    request: atFirstUse(() => z.strictObject({ number: z.string().min(1).max(NAME_LENGTH_MAX) })),
    reply: atFirstUse(() => z.strictObject({ signatures: z.array(signature).max(SIGNATURES_MAX) })),
  },
} as const;
