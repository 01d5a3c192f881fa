/** The photos that a certificate names, as its page takes them. More than fit are named there and not shown. */
import type { CertificateContent } from '../../core/certificate/certificate-content.ts';
import type { PhotoBytes } from '../../core/certificate/paper/specimen-section.ts';
import { PHOTOS_ON_PAPER_BYTES_MAX } from '../../core/limits.ts';

/** By SHA-256. `bytesOf` gives a photo of the archive by its number. */
export async function photosOnPaper(
  { specimens }: CertificateContent,
  bytesOf: (photoId: number) => Promise<Uint8Array>,
): Promise<ReadonlyMap<string, PhotoBytes>> {
  const photos = new Map<string, PhotoBytes>();
  let total = 0;
  for (const { photoId, sha256, mediaType } of specimens.flatMap((specimen) => specimen.photos)) {
    const bytes = await bytesOf(photoId);
    total += bytes.length;
    if (total > PHOTOS_ON_PAPER_BYTES_MAX) break;
    photos.set(sha256, { mediaType, base64: Buffer.from(bytes).toString('base64') });
  }
  return photos;
}
