import { basename } from 'node:path';

/** A name that is no path, no device and not hidden, whatever a specimen is called. */
export function fileNameFrom(text: string): string {
  const plain = basename(text.replaceAll('\\', '/'))
    // eslint-disable-next-line no-control-regex -- control characters are exactly what must go
    .replace(/[\u0000-\u001f<>:"/\\|?*]/g, '-')
    .replace(/^[.\s]+|[.\s]+$/g, '')
    .slice(0, 120);
  return plain === '' ? 'gaugemark' : plain;
}
