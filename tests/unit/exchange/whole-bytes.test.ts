/** Files for a person (pictures, photos, certificates, tables): whole or not at all, whatever the disk does. */
import { existsSync, mkdirSync, readFileSync, readdirSync, renameSync, rmSync, writeFileSync } from 'node:fs';
import { dirname, join } from 'node:path';
import { expect, it } from 'vitest';
import { type WrittenThing, writeWholeBytes } from '../../../electron/exports/whole-bytes.ts';
import { fill, smallDisk } from '../../app/support/small-disk.ts';
import { scratchFolder } from '../archive/made-archive.ts';

const bytes = Uint8Array.from({ length: 200_000 }, (_, i) => (i * 131) % 251);
const place = (): string => join(scratchFolder(), 'p.png');
const picture = (path: string, over: { replace?: boolean; what?: WrittenThing } = {}) => ({
  path,
  bytes,
  what: 'picture' as const,
  ...over,
});
const left = (path: string): string[] => readdirSync(dirname(path));

it('writes what it was given and leaves nothing beside it', async () => {
  const path = place();
  expect(await writeWholeBytes(picture(path))).toBe(path);
  expect(readFileSync(path).equals(bytes)).toBe(true);
  expect(left(path)).toEqual(['p.png']);
});

it('replaces only what a person agreed to replace, and only by a whole file', async () => {
  const path = place();
  writeFileSync(path, 'before');
  await expect(writeWholeBytes(picture(path))).rejects.toThrow(/exists already and is not written over/);
  const broken = writeWholeBytes(picture(path, { replace: true }), (to, its) => {
    writeFileSync(to, its.subarray(0, its.length - 1));
    return Promise.resolve();
  });
  await expect(broken).rejects.toThrow(/picture did not arrive whole at .*p\.png, so it was not kept/);
  expect(readFileSync(path, 'utf8')).toBe('before');
  expect(left(path)).toEqual(['p.png']);
  await writeWholeBytes(picture(path, { replace: true }));
  expect(readFileSync(path).equals(bytes)).toBe(true);
});

it('sees a single byte that came out otherwise', async () => {
  const path = place();
  const flipped = Uint8Array.from(bytes, (byte, i) => (i === 123_456 ? byte ^ 1 : byte));
  await expect(
    writeWholeBytes(picture(path, { what: 'photo' }), (to) => {
      writeFileSync(to, flipped);
      return Promise.resolve();
    }),
  ).rejects.toThrow(/The photo did not arrive whole/);
  expect(left(path)).toEqual([]);
});

it('takes no file that somebody else put there meanwhile', async () => {
  const path = place();
  const raced = writeWholeBytes(picture(path), (to, its) => {
    writeFileSync(to, its);
    writeFileSync(path, 'theirs');
    return Promise.resolve();
  });
  await expect(raced).rejects.toThrow(/exists already/);
  expect(readFileSync(path, 'utf8')).toBe('theirs');
  expect(left(path)).toEqual(['p.png']);
});

it('says that the disk is full, and leaves what was there', async (context) => {
  const disk = smallDisk(scratchFolder());
  if ('skip' in disk) return context.skip(disk.skip);
  const path = join(disk.path, 'p.png');
  writeFileSync(path, 'before');
  fill(disk.path);
  await expect(writeWholeBytes(picture(path, { replace: true }))).rejects.toThrow(
    /disk that holds .*p\.png is full, so the picture was not written/,
  );
  expect(readFileSync(path, 'utf8')).toBe('before');
  expect(left(path).sort()).toEqual(['filler', 'p.png']);
});

it('says that the folder is gone, before and while it is written', async () => {
  const folder = join(scratchFolder(), 'stick');
  const path = join(folder, 'p.png');
  await expect(writeWholeBytes(picture(path))).rejects.toThrow(/folder of .*p\.png does not exist/);
  mkdirSync(folder);
  const taken = writeWholeBytes(picture(path), (to, its) => {
    writeFileSync(to, its);
    renameSync(folder, `${folder}-elsewhere`);
    return Promise.resolve();
  });
  await expect(taken).rejects.toThrow(/written of the picture is gone again from .*p\.png/);
  rmSync(`${folder}-elsewhere`, { recursive: true });
  expect(existsSync(path)).toBe(false);
});
