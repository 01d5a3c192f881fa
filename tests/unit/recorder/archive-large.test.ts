/** A file that has grown past its size says how it can be split, and one that has not says nothing. */
import { join } from 'node:path';
import { expect, onTestFinished, test } from 'vitest';
import { ARCHIVE_LARGE_BYTES } from '../../../core/limits.ts';
import { ARCHIVE_SPLIT_USAGE } from '../../../electron/command-line/archive-split.ts';
import { Recorder } from '../../../electron/recorder/recorder.ts';
import { answerRequest } from '../../../electron/recorder/requests.ts';
import { keptPull, openArchive, scratchFolder } from '../archive/made-archive.ts';

async function told(largeBytes?: number): Promise<string | undefined> {
  const archivePath = join(scratchFolder(), 'a.gaugemark');
  const archive = openArchive(archivePath);
  keptPull(archive);
  archive.close();
  const recorder = new Recorder({
    archivePath,
    programVersion: '9.9.9',
    makeFolder: false,
    resume: true,
    log: () => undefined,
    ...(largeBytes === undefined ? {} : { largeBytes }),
  });
  onTestFinished(() => recorder.end());
  await recorder.begin();
  const answer = await answerRequest(recorder, 'session.get', {});
  if (!answer.ok) throw new Error(answer.fault.sentence);
  return answer.value.notices.find(({ code }) => code === 'archive-large')?.sentence;
}

test('past its size the archive names the command that splits it; it works as it is', async () => {
  expect(await told()).toBeUndefined();
  expect(ARCHIVE_LARGE_BYTES).toBeGreaterThan(2 ** 32);
  const sentence = (await told(1_000)) ?? '';
  expect(sentence).toMatch(/^The archive has \d+ GiB\. It works as it is; /);
  // The command that it names is the one there is.
  expect(sentence).toContain('gaugemark archive split --by-year');
  expect(ARCHIVE_SPLIT_USAGE).toContain('gaugemark archive split --by-year');
});
