/** `gaugemark archive photo`: photos of a broken specimen, kept with its pull; listed, added, withdrawn, written out. */
import { resolve } from 'node:path';
import type { KeptPhoto } from '../../core/contract/photo-requests.ts';
import { readPhotoFile } from '../photos/read-photo-file.ts';
import { type VerbArguments, takeArguments } from './arguments.ts';
import { writeNewBytes } from './new-file.ts';
import { pullNumber } from './pull-number.ts';
import { type RecorderAccess, existingArchive, recorderAccess } from './recorder-access.ts';
import { EXIT_DONE, type ExitCode, InputError, type VerbIo } from './verb.ts';

export const PHOTO_USAGE = `gaugemark archive photo --pull ID --archive FILE [--json]
gaugemark archive photo --pull ID --add FILE [--caption TEXT] [--instead-of PHOTO --reason TEXT] [--operator NAME]
gaugemark archive photo --withdraw PHOTO --reason TEXT [--operator NAME]
gaugemark archive photo --write PHOTO --out FILE`;

export const PHOTO_HELP = `  photo    photos of the broken specimen, JPEG or PNG: listed, added, withdrawn, one put in the place of another, and
           written out. They are kept as they are, with their hash, and stand on the certificate`;

const OPTIONS = {
  archive: { type: 'string' },
  pull: { type: 'string' },
  add: { type: 'string' },
  caption: { type: 'string' },
  'instead-of': { type: 'string' },
  withdraw: { type: 'string' },
  write: { type: 'string' },
  out: { type: 'string' },
  reason: { type: 'string' },
  operator: { type: 'string' },
  json: { type: 'boolean' },
} as const;

export async function pullPhotos(args: readonly string[], io: VerbIo): Promise<ExitCode> {
  const given = takeArguments(args, OPTIONS, [], 'archive');
  const [act, other] = (['add', 'withdraw', 'write'] as const).filter((one) => given.text(one) !== undefined);
  if (other !== undefined)
    throw new InputError(
      'arguments-conflict',
      `--${String(act)} and --${other} are two acts; give one.`,
      other,
    );
  const work = act === undefined ? list : DO[act];
  const ready = await work(given);
  const access = await recorderAccess({
    archive: existingArchive(given.text('archive')),
    toRecord: act === 'add' || act === 'withdraw',
    note: io.err,
  });
  try {
    const { document, text } = await ready(access);
    io.out(given.has('json') ? JSON.stringify(document) : text);
    return EXIT_DONE;
  } finally {
    await access.end();
  }
}

interface Told {
  readonly document: unknown;
  readonly text: string;
}
/** What is wrong with the arguments or the file is told before the archive is opened. */
type Work = (given: VerbArguments) => Promise<(access: RecorderAccess) => Promise<Told>>;

const list: Work = (given) => {
  const pullId = pullNumber(given.text('pull'));
  return Promise.resolve(async (access) => {
    const { photos } = await access.ask('photo.list', { pullId });
    const text =
      photos.length === 0
        ? `No photo is kept with pull ${String(pullId)}.`
        : photos.map(photoText).join('\n');
    return { document: { photos }, text };
  });
};

const add: Work = async (given) => {
  const pullId = pullNumber(given.text('pull'));
  const file = await readPhotoFile(resolve(given.text('add') ?? ''));
  if (!file.ok) throw new InputError(file.code, file.sentence, 'add');
  const insteadOf = given.text('instead-of');
  const supersedes = insteadOf === undefined ? undefined : pullNumber(insteadOf, 'instead-of');
  const { fileName, bytes } = file;
  const said = { ...by(given), ...text(given, 'caption'), ...text(given, 'reason') };
  return async (access) => {
    const { photo } = await access.ask('photo.add', {
      pullId,
      fileName,
      bytes,
      ...said,
      ...(supersedes === undefined ? {} : { supersedes }),
    });
    return { document: { photo }, text: `Kept. ${photoText(photo)}` };
  };
};

const withdraw: Work = (given) => {
  const photoId = pullNumber(given.text('withdraw'), 'withdraw');
  const { reason } = text(given, 'reason');
  if (reason === undefined)
    throw new InputError(
      'reason-missing',
      '--reason TEXT is missing: why the photo stands no more.',
      'reason',
    );
  return Promise.resolve(async (access) => {
    await access.ask('photo.withdraw', { photoId, reason, ...by(given) });
    return {
      document: { photoId, reason },
      text: `Photo ${String(photoId)} is withdrawn: ${reason}. It stays in the archive and stands on no certificate any more.`,
    };
  });
};

const write: Work = (given) => {
  const photoId = pullNumber(given.text('write'), 'write');
  const out = given.text('out');
  if (out === undefined)
    throw new InputError('option-missing', '--out FILE is missing: where the photo is to be written.', 'out');
  const path = resolve(out);
  return Promise.resolve(async (access) => {
    const { photo, bytes } = await access.ask('photo.get', { photoId });
    await writeNewBytes(path, bytes, { what: 'photo', option: 'out' });
    return {
      document: { photo, path },
      text: `Photo ${String(photoId)} is written to ${path}, byte for byte.`,
    };
  });
};

const DO = { add, withdraw, write } as const;

function by(given: VerbArguments): { by?: string } {
  const name = given.text('operator')?.trim() ?? '';
  return name === '' ? {} : { by: name };
}

function text<N extends string>(given: VerbArguments, name: N): { readonly [K in N]?: string } {
  const words = given.text(name)?.trim() ?? '';
  return (words === '' ? {} : { [name]: words }) as { readonly [K in N]?: string };
}

function photoText(photo: KeptPhoto): string {
  const { photoId, fileName, caption, widthPx, heightPx, byteCount, sha256, withdrawn } = photo;
  const gone =
    withdrawn === null
      ? ''
      : withdrawn.replacedBy === null
        ? `; withdrawn: ${withdrawn.reason}`
        : `; photo ${String(withdrawn.replacedBy)} stands in its place: ${withdrawn.reason}`;
  return `Photo ${String(photoId)}: ${caption ?? fileName}, ${String(widthPx)} × ${String(heightPx)} pixels, ${String(byteCount)} bytes, SHA-256 ${sha256}${gone}`;
}
