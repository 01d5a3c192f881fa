/** The photos that a certificate names, as its page takes them. More than fit are named there and not shown. */
import type { CertificateContent } from '../../core/certificate/certificate-content.ts';
import type { PhotoBytes } from '../../core/certificate/paper/specimen-section.ts';
import { PHOTOS_ON_PAPER_BYTES_MAX } from '../../core/limits.ts';

/** By SHA-256. `bytesOf` gives a photo of the archive by its number; it is told which of how many. */
export async function photosOnPaper(
  { specimens }: CertificateContent,
  bytesOf: (photoId: number, at: number, of: number) => Promise<Uint8Array>,
): Promise<ReadonlyMap<string, PhotoBytes>> {
  const photos = new Map<string, PhotoBytes>();
  let total = 0;
  const all = specimens.flatMap((specimen) => specimen.photos);
  for (const [index, { photoId, sha256, mediaType }] of all.entries()) {
    const bytes = await bytesOf(photoId, index + 1, all.length);
    total += bytes.length;
    if (total > PHOTOS_ON_PAPER_BYTES_MAX) break;
    photos.set(sha256, { mediaType, base64: Buffer.from(bytes).toString('base64') });
  }
  return photos;
}
