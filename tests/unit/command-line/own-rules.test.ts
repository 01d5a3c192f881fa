/**
 * A laboratory's own rule packs from a folder: there wherever the program's are, kept with the set that uses one, and
 * never used where they are wrong. The packs are scenarios of our own.
 */
import { createHash } from 'node:crypto';
import { mkdirSync, mkdtempSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { builtInPacks } from '../../../core/acceptance/packs.ts';
import { Archive } from '../../../core/archive/archive.ts';
import { RULES_FOLDER_NAME, usualRulesFolder } from '../../../electron/rules/rules-folder-place.ts';
import { FOLDER_PACKS_MAX, readRulesFolder } from '../../../electron/rules/rules-folder.ts';
import { OWN_PACK } from '../acceptance/judging.ts';
import { WALL_MS } from '../archive/made-archive.ts';
import { ran } from './in-process.ts';

const scratch = mkdtempSync(join(tmpdir(), 'gaugemark-own-rules-'));
afterAll(() => rmSync(scratch, { recursive: true }));

let count = 0;
function rulesFolder(files: Readonly<Record<string, unknown>>): string {
  const folder = join(scratch, `rules-${String((count += 1))}`);
  mkdirSync(folder);
  for (const [name, content] of Object.entries(files))
    writeFileSync(join(folder, name), typeof content === 'string' ? content : JSON.stringify(content));
  return folder;
}

const OWN = { ...OWN_PACK, id: 'our-shop', name: 'Our shop' };

describe('the rules folder', () => {
  it.each([
    ['linux', {}, '/home/w/.config/gaugemark/rules'],
    ['linux', { XDG_CONFIG_HOME: '/etc/w' }, '/etc/w/gaugemark/rules'],
    ['darwin', {}, '/home/w/Library/Application Support/gaugemark/rules'],
    ['win32', { APPDATA: 'C:\\Users\\w\\Roaming' }, 'C:\\Users\\w\\Roaming\\gaugemark\\rules'],
  ] as const)('lies beside the configuration on %s %o', (platform, environment, expected) => {
    expect(usualRulesFolder({ platform, home: '/home/w', environment })).toBe(expected);
    expect(expected.endsWith(RULES_FOLDER_NAME)).toBe(true);
  });

  it('gives each pack with its file and the hash of its bytes', async () => {
    const folder = rulesFolder({ 'our.json': OWN, 'notes.txt': 'no pack' });
    const { packs, refused, fault } = await readRulesFolder(folder);
    expect([refused, fault]).toEqual([[], null]);
    expect(packs.map(({ file, origin }) => [file.id, origin])).toEqual([
      [
        'our-shop',
        { file: 'our.json', sha256: createHash('sha256').update(JSON.stringify(OWN)).digest('hex') },
      ],
    ]);
  });

  it('tells what is wrong with each file that it does not use', async () => {
    const [rule] = OWN.rules;
    const folder = rulesFolder({
      'clause.json': { ...OWN, rules: [{ ...rule, clause: 'nowhere' }] },
      'half.json': '{"format": ',
      'negative.json': { ...OWN, baseMetals: [{ id: 'X', name: 'X', tensile: { si: { min: '-400 MPa' } } }] },
      'right.json': { ...OWN, id: 'right' },
    });
    mkdirSync(join(folder, 'folder.json'));
    const { packs, refused } = await readRulesFolder(folder);
    expect(packs.map(({ file }) => file.id)).toEqual(['right']);
    const whatIsWrong = new Map(refused.map(({ file, sentences }) => [file, sentences[0]]));
    expect([...whatIsWrong.keys()]).toEqual(['clause.json', 'folder.json', 'half.json', 'negative.json']);
    expect(whatIsWrong.get('clause.json')).toMatch(/^rules\[0\]\.clause: clause "nowhere" is unknown/);
    expect(whatIsWrong.get('folder.json')).toMatch(/no file but a folder/);
    expect(whatIsWrong.get('half.json')).toMatch(/not JSON/);
    expect(whatIsWrong.get('negative.json')).toMatch(/^baseMetals\[0\].*negative/);
  });

  it('uses neither of two files with one id', async () => {
    const { packs, refused } = await readRulesFolder(rulesFolder({ 'a.json': OWN, 'b.json': OWN }));
    expect(packs).toEqual([]);
    expect(refused.map(({ file }) => file)).toEqual(['a.json', 'b.json']);
  });

  it('is bounded, and told where it can not be read', async () => {
    const many = Object.fromEntries(
      Array.from({ length: FOLDER_PACKS_MAX + 1 }, (_, i) => [`${String(i)}.json`, '{}']),
    );
    expect((await readRulesFolder(rulesFolder(many))).fault).toMatch(/at most 200 are read/);
    expect((await readRulesFolder(join(scratch, 'nowhere'))).fault).toMatch(/can't be read \(ENOENT\)/);
  });
});

describe('own rules on the command line', () => {
  it('list beside those of the program; what is wrong is told and not listed', async () => {
    const folder = rulesFolder({ 'our.json': OWN, 'half.json': '{' });
    const { code, out, err } = await ran('rules', 'list', '--rules-folder', folder, '--json');
    expect(code).toBe(0);
    const listed = JSON.parse(out) as { id: string }[];
    expect(listed).toHaveLength(builtInPacks().length + 1);
    expect(listed.at(-1)?.id).toBe('our-shop');
    expect(err).toMatch(/half\.json is not used: The file: it is not JSON/);
  });

  it('judge; a file that is not usable is named where its pack is missed', async () => {
    const folder = rulesFolder({ 'our.json': OWN, 'half.json': '{' });
    const asked = ['--strength', '500 MPa', '--base-metal', 'HB-9', '--broke', 'base-metal', '--json'];
    const judged = await ran('judge', '--rules', 'our-shop', '--rules-folder', folder, ...asked);
    expect(JSON.parse(judged.out)).toMatchObject({ verdict: { pack: { id: 'our-shop' } } });
    const missed = await ran('judge', '--rules', 'half', '--rules-folder', folder, ...asked);
    expect([missed.code, missed.err]).toEqual([2, expect.stringMatching(/half\.json can't be used/)]);
  });
});

describe('a set by own rules', () => {
  let archive = '';
  beforeAll(() => {
    archive = join(scratch, 'a.gaugemark');
    new Archive(archive, { programVersion: '9.9.9', wallMs: () => WALL_MS }).close();
  });
  const FORM = {
    name: 'Bracket',
    purpose: 'production-coupon',
    rulePackId: 'our-shop',
    specimenType: 'transverse-flat',
    baseMetals: [{ designation: 'HB-9' }],
  };

  it('keeps the pack, its file and its hash, and says later when the file reads differently or is gone', async () => {
    const folder = rulesFolder({ 'our.json': OWN });
    const form = join(scratch, 'set.json');
    writeFileSync(form, JSON.stringify(FORM));
    const kept = await ran('set', 'save', form, '--archive', archive, '--rules-folder', folder, '--json');
    expect(kept.err).toBe('');
    const { setId } = JSON.parse(kept.out) as { setId: number };
    const judge = async (): Promise<{ sentence: string; remarks: string[] }> =>
      JSON.parse(
        (await ran('set', 'judge', String(setId), '--archive', archive, '--rules-folder', folder, '--json'))
          .out,
      ) as { sentence: string; remarks: string[] };
    const first = await judge();
    expect(first.remarks).toEqual([]);
    writeFileSync(join(folder, 'our.json'), JSON.stringify({ ...OWN, edition: 'next year’s' }));
    const changed = await judge();
    expect(changed.remarks).toEqual([expect.stringMatching(/Our shop \(our\.json\) read differently today/)]);
    rmSync(join(folder, 'our.json'));
    const gone = await judge();
    expect(gone.remarks).toEqual([expect.stringMatching(/not in the rules folder any more/)]);
    expect([changed.sentence, gone.sentence]).toEqual([first.sentence, first.sentence]);
    // … and no new set can be judged by what is gone.
    const again = await ran('set', 'save', form, '--archive', archive, '--rules-folder', folder);
    expect([again.code, again.err]).toEqual([2, expect.stringMatching(/there is no rule pack "our-shop"/)]);
  });

  it('is refused where the folder can not be read', async () => {
    const form = join(scratch, 'set.json');
    writeFileSync(form, JSON.stringify(FORM));
    const { code, err } = await ran('set', 'save', form, '--archive', archive, '--rules-folder', '/nowhere');
    expect([code, err]).toEqual([2, expect.stringMatching(/can't be read/)]);
  });
});
