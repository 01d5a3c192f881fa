/** `gaugemark certificate --pull N` of a specimen that is in no set: everything but a verdict, under a number. */
import { mkdtempSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { beforeAll, describe, expect, it } from 'vitest';
import { Archive } from '../../../core/archive/archive.ts';
import type { CertificateContent } from '../../../core/certificate/certificate-content.ts';
import { certificatePage } from '../../../core/certificate/paper/certificate-page.ts';
import { recorderAccess } from '../../../electron/command-line/recorder-access.ts';
import { WALL_MS, keptPull } from '../archive/made-archive.ts';
import { ran } from './in-process.ts';

let folder = '';
let archive = '';

beforeAll(async () => {
  folder = mkdtempSync(join(tmpdir(), 'gaugemark-test-'));
  archive = join(folder, 'a.gaugemark');
  const opened = new Archive(archive, { programVersion: '9.9.9', wallMs: () => WALL_MS });
  keptPull(opened);
  keptPull(opened);
  keptPull(opened, 5, 20, 2);
  opened.close();
  const recorder = await recorderAccess({ archive, toRecord: true, note: () => undefined });
  return async () => {
    await recorder.end();
    rmSync(folder, { recursive: true, force: true });
  };
});

let count = 0;
async function certificate(...asked: string[]) {
  const out = join(folder, `${String((count += 1))}.json`);
  const {
    code,
    out: said,
    err,
  } = await ran('certificate', '--archive', archive, ...asked, '--out', out, '--json');
  expect([code, err]).toEqual([0, '']);
  const told = JSON.parse(said) as { number: string; again: boolean; outcome: string | null };
  return { ...told, content: JSON.parse(readFileSync(out, 'utf8')) as CertificateContent };
}

describe('the certificate of a pull in no set', () => {
  it('says what was measured, where it broke, and that no rules judge it', async () => {
    const noted = await ran(
      ...['archive', 'note-fracture', '--pull', '1', '--broke', 'weld-metal', '--archive', archive],
    );
    expect(noted.code).toBe(0);
    const { outcome, content } = await certificate('--pull', '1');
    expect(outcome).toBeNull();
    expect(content).toMatchObject({
      kind: 'specimen',
      set: [],
      rules: [{ label: 'verdict', value: 'not judged: no rules chosen' }],
      setVerdict: null,
    });
    const [specimen] = content.specimens;
    expect(specimen?.verdict).toBeNull();
    expect(specimen?.fracture).toContainEqual({ label: 'broke', value: 'in the weld metal' });
    expect(specimen?.results.map(({ symbol }) => symbol)).toContain('S0');
    const page = certificatePage(content, { paper: 'A4', fonts: [] });
    expect(page).toContain('not judged: no rules chosen');
    expect(page).not.toContain('Purpose and material');
  });

  it('keeps its number, with a signature under it', async () => {
    const first = await certificate('--pull', '1');
    const again = await certificate('--pull', '1', '--sign', 'A. Person', '--meaning', 'tested by');
    expect([again.number, again.again]).toEqual([first.number, true]);
    expect(again.content.signatures).toMatchObject([{ printedName: 'A. Person', meaning: 'tested by' }]);
  });

  it('is that of its specimen, which has no other pull', async () => {
    const first = await certificate('--pull', '1');
    expect(await certificate('--specimen', '1')).toMatchObject({
      number: first.number,
      again: true,
      outcome: null,
    });
  });

  it('of a specimen with two pulls names neither by itself, and the other once one is void', async () => {
    const out = join(folder, 'one-of-two.json');
    const asked = ['certificate', '--archive', archive, '--specimen', '2', '--out', out];
    const { code, err } = await ran(...asked);
    expect([code, err]).toEqual([2, expect.stringMatching(/several pulls: 3, 2\. Name one with --pull/)]);
    await ran('archive', 'void', '--pull', '3', '--reason', 'slipped', '--archive', archive);
    expect((await ran(...asked)).err).toBe('');
    const content = JSON.parse(readFileSync(out, 'utf8')) as CertificateContent;
    expect(content.specimens[0]?.record).toContainEqual({ label: 'pull', value: '2' });
  });

  it('of a specimen without a pull says so', async () => {
    const out = join(folder, 'none.json');
    const { code, err } = await ran('certificate', '--archive', archive, '--specimen', '77', '--out', out);
    expect([code, err]).toEqual([2, expect.stringMatching(/no pull of it counts/)]);
  });

  it('once its specimen is in a set it is judged by its rules, under another number', async () => {
    const before = await certificate('--pull', '1');
    const form = join(folder, 'set.json');
    writeFileSync(
      form,
      JSON.stringify({
        name: 'Later',
        purpose: 'class-exercise',
        rulePackId: 'shop-practice',
        specimenType: 'transverse-flat',
        baseMetals: [{ designation: 'plate', minimum: '10 MPa' }],
      }),
    );
    await ran('set', 'save', form, '--archive', archive);
    await ran('set', 'join', '1', '--pull', '1', '--archive', archive);
    const after = await certificate('--pull', '1');
    expect(after.number).not.toBe(before.number);
    expect(after.content.specimens[0]?.verdict?.outcome).toBe('reject');
  });
});
