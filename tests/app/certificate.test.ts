/**
 * From specimen to certificate on a real archive: two pulls of the simulated frame put into a set, looked at, judged,
 * and the paper made twice. The limits are those of the rule pack; the loads are the simulated frame's own.
 */
import { execFile, execFileSync } from 'node:child_process';
import { existsSync, mkdtempSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { promisify } from 'node:util';
import { parse } from 'csv-parse/sync';
import { afterAll, describe, expect, it } from 'vitest';
import { z } from 'zod';
import type { CertificateContent } from '../../core/certificate/certificate-content.ts';
import { type RecorderAccess, recorderAccess } from '../../electron/command-line/recorder-access.ts';
import { COMMAND_LINE_PROGRAM } from './support/command-line-program.ts';

const folder = mkdtempSync(join(tmpdir(), 'gaugemark-certificate-'));
afterAll(() => rmSync(folder, { recursive: true, force: true }));
const archive = join(folder, 'shop.gaugemark');

async function gaugemark(...args: string[]): Promise<string> {
  const { stdout } = await promisify(execFile)(process.execPath, [COMMAND_LINE_PROGRAM, ...args], {
    maxBuffer: 64 * 1_048_576,
  });
  return stdout;
}

async function refused(...args: string[]): Promise<{ code: unknown; words: string }> {
  return gaugemark(...args).then(
    () => ({ code: 0, words: '' }),
    (error: unknown) =>
      z
        .object({ code: z.unknown(), stderr: z.string() })
        .transform((e) => ({ code: e.code, words: e.stderr }))
        .parse(error),
  );
}

async function withRecorder<T>(work: (ask: RecorderAccess['ask']) => Promise<T>): Promise<T> {
  const access = await recorderAccess({ archive, toRecord: true, note: () => undefined });
  try {
    return await work(access.ask);
  } finally {
    await access.end();
  }
}

const certificate = (out: string, ...more: string[]): Promise<string> =>
  gaugemark('certificate', '--archive', archive, '--set', '1', '--out', join(folder, out), '--json', ...more);
const content = (file: string): CertificateContent =>
  JSON.parse(readFileSync(join(folder, file), 'utf8')) as CertificateContent;

describe('a set of two pulls', () => {
  it('is judged by its pack and says what is missing until both have been looked at', async () => {
    for (const id of ['GH-1', 'GH-2']) {
      const specimen = join(folder, `${id}.json`);
      const geometry = { kind: 'flat', width: ['19.96 mm', '20.02 mm'], thickness: '6.05 mm' };
      writeFileSync(specimen, JSON.stringify({ id, geometry, gaugeLength: '50 mm' }));
      await gaugemark(
        ...['pull', '--simulated', 'mild-steel-yield-point', '--seed', id.slice(-1), '--pace', '50'],
        ...['--specimen', specimen, '--tail', '0.5', '--archive', archive, '--json'],
      );
    }
    await withRecorder(async (ask) => {
      await ask('laboratory.save', { name: 'Hall 3 <test>', lines: ['Quay 7'] });
      const { setId } = await ask('set.save', {
        form: {
          name: 'Gate hinge',
          purpose: 'procedure-qualification',
          rulePackId: 'asme-ix',
          baseMetals: [{ designation: 'our plate', minimum: '260 MPa' }],
          specimenType: 'transverse-flat',
        },
      });
      const { items } = await ask('pull.list', { limit: 10 });
      for (const { specimenId } of items.toReversed()) await ask('set.join', { setId, specimenId });
      const before = await ask('set.judge', { setId });
      expect(before.outcome).toBe('undecided');
      expect(before.members.map((one) => one.stage)).toEqual(['to-look-at', 'to-look-at']);
      expect(before.next).toMatch(/note where and how it broke/);
      for (const { pullId } of items)
        await ask('pull.note-fracture', { pullId, note: { place: 'base-metal', appearance: 'ductile' } });
      const after = await ask('set.judge', { setId });
      expect(after.members.map((one) => one.stage)).toEqual(['judged', 'judged']);
      for (const { sentence } of after.members) expect(sentence).toMatch(/ MPa/);
    });
  });

  it('has a certificate in three forms that say the same under one number', async () => {
    const first = z
      .object({ number: z.string(), again: z.boolean() })
      .parse(JSON.parse(await certificate('c.json')));
    expect(first.again).toBe(false);
    expect(first.number).toMatch(/^\d{4}-0001-[0-9a-f]{4}$/);
    const again = z
      .object({ number: z.string(), again: z.boolean() })
      .parse(JSON.parse(await certificate('c.csv')));
    expect(again).toEqual({ number: first.number, again: true });
    await certificate('c.pdf');
    const text = execFileSync('pdftotext', ['-layout', join(folder, 'c.pdf'), '-'], { encoding: 'utf8' });
    const { specimens, laboratory, setVerdict } = content('c.json');
    expect(laboratory).toEqual({ name: 'Hall 3 <test>', lines: ['Quay 7'] });
    expect(text).toContain('Hall 3 <test>');
    expect(text).toContain(first.number);
    expect(text.replace(/\s+/g, ' ')).toContain('made again from the');
    // The frame was simulated: no page may be taken for evidence.
    const pages = text.split('\f').filter((page) => page.trim() !== '');
    expect(pages.length).toBeGreaterThan(1);
    for (const page of pages) expect(page).toContain('SIMULATED readings: no specimen was pulled.');
    expect(setVerdict).not.toBeNull();
    expect(specimens).toHaveLength(2);
    const csv = readFileSync(join(folder, 'c.csv'), 'utf8');
    expect(parse(csv, { relax_column_count: true, comment: '#' }).length).toBeGreaterThan(10);
    for (const { results, record } of specimens) {
      const strength = results.find((row) => row.symbol === 'Rm');
      expect(strength?.reported?.text).toMatch(/MPa$/);
      expect(text).toContain(strength?.reported?.text ?? 'no strength');
      expect(csv).toContain(strength?.si ?? 'no strength');
      const hash = record.find((fact) => fact.label.startsWith('SHA-256'))?.value ?? '';
      expect(hash).toMatch(/^[0-9a-f]{64}$/);
      expect(text.replace(/\s/g, '')).toContain(hash);
    }
  });

  it('keeps what the rules said when a person overrules them, and the certificate is another one then', async () => {
    await withRecorder((ask) =>
      ask('set.override', {
        setMemberId: 1,
        to: 'reject',
        person: 'Q. Inspector',
        reason: 'undercut at the toe',
      }),
    );
    await certificate('d.json');
    const { number, specimens, deviations } = content('d.json');
    expect(number).toMatch(/^\d{4}-0002-/);
    expect(specimens[0]?.verdict?.outcome).toBe('reject');
    expect(specimens[0]?.verdict?.outcomeOfRules).not.toBe('reject');
    expect(deviations.join(' ')).toMatch(/undercut at the toe/);
  });

  it('has one for each of its specimens too, named by the specimen or by its pull', async () => {
    const written = async (out: string, ...which: string[]) =>
      z
        .object({ number: z.string(), again: z.boolean(), outcome: z.string() })
        .parse(
          JSON.parse(
            await gaugemark(
              ...['certificate', '--archive', archive, ...which, '--out', join(folder, out), '--json'],
            ),
          ),
        );
    const first = await written('one.json', '--specimen', '2');
    expect(first.number).toMatch(/^\d{4}-0003-/);
    const { kind, specimens, setVerdict } = content('one.json');
    expect({ kind, setVerdict }).toEqual({ kind: 'specimen', setVerdict: null });
    expect(specimens.map((one) => one.name)).toEqual(['GH-2']);
    expect(specimens[0]?.verdict?.outcome).toBe(first.outcome);
    // The pull of that specimen: the same certificate, so the same number.
    expect(await written('same.json', '--pull', '2')).toEqual({ ...first, again: true });
    const stranger = await refused(
      ...['certificate', '--archive', archive, '--specimen', '9', '--out', join(folder, 'n.pdf')],
    );
    expect(stranger.code).toBe(2);
    expect(stranger.words).toMatch(/in no set/);
  });

  it('is told as outdated once a pull was evaluated anew after it, and no more when it is issued again', async () => {
    const shown = () => gaugemark('archive', 'show', '2', '--archive', archive);
    const told =
      /Certificate \d{4}-0003-[0-9a-f]{4} \(of its specimen, .*\) was issued .* before the evaluation of .* issue it again/;
    expect(await shown()).not.toMatch(/issue it again/);
    await gaugemark(
      ...['archive', 'evaluate', '2', '--archive', archive, '--offset', '1'],
      ...['--reason', 'the drawing asks for 1 %'],
    );
    expect(await shown()).toMatch(told);
    await withRecorder(async (ask) => {
      const { number, outdated } = await ask('certificate.preview', { about: { setId: 1, setMemberId: 2 } });
      expect(number).toBeNull();
      expect(outdated?.number).toMatch(/-0003-/);
      expect(outdated?.evaluatedWallMs).toBeGreaterThan(outdated?.issuedWallMs ?? Infinity);
      const issued = await ask('certificate.issue', { about: { setId: 1, setMemberId: 2 } });
      expect(issued.content.specimens[0]?.results.map((row) => row.symbol)).toContain('Rp1');
    });
    const now = await shown();
    expect(now).not.toMatch(told);
    // That of the set rests on the pull too, and was not.
    expect(now).toMatch(/Certificate \d{4}-0002-[0-9a-f]{4} \(of the set "Gate hinge", English\) was issued/);
  });

  it('is issued in Spanish under a number of its own, signed as such, and stays so when it is made again', async () => {
    const issued = z.object({ number: z.string(), again: z.boolean() });
    const english = issued.parse(JSON.parse(await certificate('e.json', '--language', 'en')));
    const sign = ['--sign', 'A. Núñez', '--meaning', 'approved by'];
    const spanish = issued.parse(JSON.parse(await certificate('e.pdf', '--language', 'es', ...sign)));
    expect(spanish.number).not.toBe(english.number);
    const text = execFileSync('pdftotext', ['-layout', join(folder, 'e.pdf'), '-'], { encoding: 'utf8' });
    for (const words of [
      'Certificado de ensayos de tracción',
      'resistencia a la tracción',
      'undercut at the toe',
      'aprobado por',
      'A. Núñez',
      `Fin del certificado ${spanish.number}`,
    ])
      expect(text.replace(/\s+/g, ' ')).toContain(words.replace(/\s+/g, ' '));
    expect(text).toMatch(/página 1 de \d/);
    expect(text).not.toMatch(/Signatures|ultimate tensile strength|page 1/);
    expect(execFileSync('pdffonts', [join(folder, 'e.pdf')], { encoding: 'utf8' })).not.toMatch(
      / no +(yes|no) +(yes|no) /,
    );
    // Nobody says a language: that of the newest.
    const again = issued.parse(JSON.parse(await certificate('f.json')));
    expect(again).toEqual({ number: spanish.number, again: true });
    expect(content('f.json')).toMatchObject({ language: 'es', signatures: [{ printedName: 'A. Núñez' }] });
    // The English one is untouched by it.
    expect(issued.parse(JSON.parse(await certificate('g.json', '--language', 'en')))).toEqual({
      number: english.number,
      again: true,
    });
    expect(content('g.json').language).toBeUndefined();
    expect(
      (
        await refused(
          'certificate',
          '--archive',
          archive,
          '--set',
          '1',
          '--language',
          'fr',
          '--out',
          join(folder, 'h.pdf'),
        )
      ).code,
    ).toBe(2);
  });

  it('refuses a set that is not there, an ending it does not know, and to write over a file', async () => {
    const pdf = join(folder, 'other.pdf');
    expect(await refused('certificate', '--archive', archive, '--set', '9', '--out', pdf)).toMatchObject({
      code: 2,
    });
    expect(existsSync(pdf)).toBe(false);
    const doc = await refused(
      'certificate',
      '--archive',
      archive,
      '--set',
      '1',
      '--out',
      join(folder, 'x.doc'),
    );
    expect(doc.code).toBe(2);
    expect(doc.words).toMatch(/\.pdf, \.csv, \.json/);
    const over = await refused(
      'certificate',
      '--archive',
      archive,
      '--set',
      '1',
      '--out',
      join(folder, 'c.json'),
    );
    expect(over.code).toBe(2);
    expect(over.words).toMatch(/not written over/);
  });
});
