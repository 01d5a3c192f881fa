/** A signature in one line: meaning, name, and when it was given. */
import type { SignatureContent } from '../../core/certificate/certificate-content.ts';
import { SIGNATURE_MEANINGS } from '../../core/contract/signature-requests.ts';
import { momentText } from '../numbers/format.ts';
import { words } from '../words/words.ts';

type Meaning = (typeof SIGNATURE_MEANINGS)[number];
const MEANINGS: ReadonlySet<string> = new Set(SIGNATURE_MEANINGS);

/** "Tested by R. Haig, 2026-11-29 12:44:52". */
export function signatureText({ meaning, printedName, at }: SignatureContent): string {
  const said = MEANINGS.has(meaning) ? words.value.trail.meanings[meaning as Meaning] : meaning;
  const wallMs = Date.parse(at);
  return `${said} ${printedName}, ${Number.isNaN(wallMs) ? at : momentText(wallMs)}`;
}
