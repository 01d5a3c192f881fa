/** `gaugemark archive overlay` and `archive export --svg`: curves of kept pulls as pictures. */
import { existsSync, readFileSync } from 'node:fs';
import { join } from 'node:path';
import { expect, it } from 'vitest';
import { folderOfFiles, ran } from './in-process.ts';

it('draws one pull with its marks, several aligned, and says which could not be', async () => {
  const file = folderOfFiles();
  // Straight to 40 kN on 100 mm², begun 0.05 mm late, then it draws out and breaks.
  const record = (slackMm: number): string =>
    [
      'time_s,force_N,extension_mm',
      ...Array.from({ length: 200 }, (_, i) =>
        [
          i / 10,
          i < 100 ? i * 400 : 40_000 + (i - 100) * 20,
          slackMm + (i < 100 ? i * 0.001 : 0.1 + (i - 100) * 0.05),
        ].join(','),
      ),
      ...Array.from({ length: 20 }, (_, i) => `${String(20 + i / 10)},40,${String(slackMm + 5.05)}`),
      '',
    ].join('\n');
  const geometry = { kind: 'flat', width: '20 mm', thickness: '5 mm' };
  const archive = join(file('empty', ''), '..', 'a.gaugemark');
  for (const [id, slackMm] of [
    ['V-1', 0],
    ['V-2', 0.05],
  ] as const) {
    file(`${id}.specimen.json`, JSON.stringify({ id, geometry, gaugeLength: '50 mm' }));
    const kept = await ran('archive', 'import', file(`${id}.csv`, record(slackMm)), '--archive', archive);
    expect(kept.code, kept.err).toBe(0);
  }
  const typed = file('V-3.json', JSON.stringify({ id: 'V-3', geometry }));
  expect(
    (await ran('pull', '--typed', '--load', '35 kN', '--specimen', typed, '--archive', archive)).code,
  ).toBe(0);
  const svg = (name: string): string => join(archive, '..', name);
  const at = ['--archive', archive] as const;

  // Both were worked out when they were imported: their yields are columns, and what has none comes last.
  const found = await ran('archive', 'search', ...at, '--sort', 'yield', '--ascending');
  expect(found.code, found.err).toBe(0);
  const [head = '', ...lines] = found.out.split('\n');
  expect(head).toMatch(/strength +yield +elongation$/);
  expect(lines[0]).toMatch(/V-[12] .* MPa +\d+(\.\d+)? MPa +\d+(\.\d+)? %/);
  expect(lines[2]).toMatch(/V-3 .* MPa +– +–/);

  const one = await ran('archive', 'export', '1', ...at, '--svg', svg('one.svg'), '--axes', 'stress-strain');
  expect(one.code, one.err).toBe(0);
  // 41 980 N on 100 mm².
  expect(readFileSync(svg('one.svg'), 'utf8')).toMatch(/<svg[^>]*>[^]*>Rm 4(?:19\.8|20) MPa</u);
  const twice = await ran('archive', 'export', '1', ...at, '--svg', svg('one.svg'));
  expect([twice.code, twice.err]).toEqual([2, expect.stringContaining('--svg')]);

  const answer = await ran('archive', 'overlay', '1', '2', '3', ...at, '--svg', svg('both.svg'), '--json');
  expect(answer.code, answer.err).toBe(0);
  const said = JSON.parse(answer.out) as {
    drawn: { specimen: string; shift: number }[];
    leftOut: { name: string; reason: string }[];
  };
  expect(said.drawn.map(({ specimen }) => specimen)).toEqual(['V-1', 'V-2']);
  // Both begin at zero, by the 0.05 mm that the second began late.
  expect((said.drawn[0]?.shift ?? 0) - (said.drawn[1]?.shift ?? 0)).toBeCloseTo(0.05, 9);
  expect(said.leftOut).toEqual([expect.objectContaining({ name: 'V-3' })]);
  const picture = readFileSync(svg('both.svg'), 'utf8');
  expect(picture).toContain('>V-1<');
  expect(picture).toContain('>V-2<');

  // As recorded the second has 0.05 mm less behind it, of 400 N a micrometre: 20 kN.
  const less = ['archive', 'overlay', '1', '2', ...at, '--difference'] as const;
  const differs = await ran(...less, '--align', 'as-recorded', '--svg', svg('less.svg'), '--json');
  expect(differs.code, differs.err).toBe(0);
  const { difference } = JSON.parse(differs.out) as {
    difference: { of: string; most: { x: number; y: number } };
  };
  expect(difference.of).toBe('V-1 less V-2');
  expect(difference.most.y).toBeCloseTo(20, 1);
  const lessPicture = readFileSync(svg('less.svg'), 'utf8');
  expect(lessPicture).toContain('>V-1 less V-2</text>');
  expect(lessPicture).toContain('>Δ load in kN<');
  const three = await ran(...less, '3', '--svg', svg('three.svg'));
  expect([three.code, three.err]).toEqual([2, expect.stringContaining('3 are named')]);
  const typedOne = await ran(
    'archive',
    'overlay',
    '1',
    '3',
    ...at,
    '--difference',
    '--svg',
    svg('three.svg'),
  );
  expect([typedOne.code, typedOne.err]).toEqual([2, expect.stringContaining('V-3')]);
  expect(existsSync(svg('three.svg'))).toBe(false);

  const wrong = await ran('archive', 'overlay', '1', '2', ...at, '--svg', svg('no.svg'), '--align', 'load');
  expect([wrong.code, wrong.err]).toEqual([2, expect.stringContaining('--load "20 kN"')]);
  const never = ['archive', 'overlay', '1', ...at, '--svg', svg('high.svg'), '--align', 'load'] as const;
  const high = await ran(...never, '--load', '90 kN');
  expect([high.code, high.err]).toEqual([
    0,
    expect.stringMatching(/stands as recorded: pull 1 V-1: .*never reaches/),
  ]);
  const nothing = await ran('archive', 'overlay', '3', ...at, '--svg', svg('none.svg'));
  expect(nothing.code).toBe(2);
  expect(existsSync(svg('none.svg'))).toBe(false);
});
