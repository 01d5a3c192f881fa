/** An archive that the program has made and that was damaged afterwards. */
import { readFileSync, writeFileSync } from 'node:fs';
import { RecorderProcess } from '../recorder-process.ts';

const SPECIMENS = 40;
const PAGE_BYTES = 4096;

/** Makes it at that path; its bytes, for comparison. */
export async function damagedArchive(path: string): Promise<Buffer> {
  const first = await RecorderProcess.start(path);
  for (let i = 0; i < SPECIMENS; i++)
    await first.ask('specimen.save', {
      specimen: { id: `S-${String(i)}`, geometry: { kind: 'round', diameter: '10 mm' } },
    });
  await first.stop();
  const bytes = readFileSync(path);
  bytes.fill(0x5a, PAGE_BYTES, PAGE_BYTES * 3);
  writeFileSync(path, bytes);
  return bytes;
}
