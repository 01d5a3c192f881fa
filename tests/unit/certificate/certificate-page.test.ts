import { describe, expect, it } from 'vitest';
import { certificateCsv } from '../../../core/certificate/certificate-csv.ts';
import { composeCertificate } from '../../../core/certificate/compose-certificate.ts';
import { certificatePage } from '../../../core/certificate/paper/certificate-page.ts';
import { axisEnds } from '../../../core/certificate/paper/axis-ends.ts';
import { headAndFoot } from '../../../core/certificate/paper/head-and-foot.ts';
import { exampleInput } from './example-input.ts';

const page = (changes = {}): string =>
  certificatePage(composeCertificate(exampleInput(changes)), { paper: 'A4', fonts: [] });

describe('a certificate as a page for printing', () => {
  it('takes nothing that was typed for markup, and keeps its direction to itself', () => {
    const text = page({
      laboratory: { name: '<script>alert(1)</script>', lines: ['" onload="x', '\u202eright to left'] },
      number: '<img src=x onerror=1>',
    });
    expect(text).not.toMatch(/<script|<img|onload="x/);
    expect(text).toContain('<bdi>&lt;script&gt;alert(1)&lt;/script&gt;</bdi>');
    expect(text).toContain('<bdi>\u202eright to left</bdi>');
    expect(text).toContain('=PQR 41 &lt;b&gt;');
  });

  it('allows no script and no request for anything outside', () => {
    expect(page()).toContain("default-src 'none'");
    expect(page()).not.toMatch(/(src|href)="?(https?:|\/\/|file:)/);
  });

  it('draws the curve as vectors with its marks, and names its photo where the picture is not at hand', () => {
    const text = page();
    expect(text).toMatch(/<svg[^>]*>[\s\S]*<path d="M/);
    expect(text).toContain('maximum');
    expect(text).toContain('break');
    expect(text).toContain('ab'.repeat(32));
    expect(text).toContain('could not be put on this page');
  });

  it('of simulated readings says so under the title, on every page, beside each verdict, in the file of rows', () => {
    const [example] = exampleInput().specimens;
    if (example?.record === null || example?.record === undefined) throw new Error('no example');
    const simulated = composeCertificate(
      exampleInput({
        specimens: [
          { ...example, record: { ...example.record, origin: 'simulated', originName: 'mild-steel' } },
        ],
      }),
    );
    const notice = 'SIMULATED readings: no specimen was pulled. Not evidence of any property.';
    expect(simulated.notices).toEqual([notice]);
    expect(headAndFoot(simulated).head).toContain(notice);
    const text = certificatePage(simulated, { paper: 'A4', fonts: [] });
    expect(text).toContain('ACCEPTED · SIMULATED');
    expect(text.split(notice).length - 1).toBe(2);
    expect(certificateCsv(simulated)).toContain(notice);
    expect(simulated.specimens[0]?.record).toContainEqual({
      label: 'kind of record',
      value: 'SIMULATED: readings of the built-in simulated frame, scenario mild-steel',
    });
    expect(page()).not.toMatch(/SIMULATED|REPLAYED|class="evidence"/);
  });

  it('of a set with one replayed pull names that one', () => {
    const [example] = exampleInput().specimens;
    if (example?.record === null || example?.record === undefined) throw new Error('no example');
    const replayed = {
      ...example,
      member: { specimenId: 'T-2' },
      record: { ...example.record, origin: 'replay', originName: 'run.bytes' } as const,
    };
    const { notices, noticeMark } = composeCertificate(exampleInput({ specimens: [example, replayed] }));
    expect(notices).toHaveLength(1);
    expect(notices[0]).toMatch(/^T-2: REPLAYED readings: /);
    expect(noticeMark).toBe('REPLAYED');
  });

  it('shows an override beside what the rules alone give', () => {
    const text = page();
    expect(text).toContain('ACCEPTED');
    expect(text).toMatch(/verified the day after/);
  });

  it('draws axes that begin at a round number near the data, with zero on them', () => {
    expect(axisEnds([-312, 60_480])).toEqual({ min: -1000, max: 65_000 });
    expect(axisEnds([-0.004, 1.3])).toEqual({ min: -0.02, max: 1.3 });
    expect(axisEnds([5, 90], [100])).toEqual({ min: 0, max: 100 });
    expect(axisEnds([0, 7_458], [], 1.04)).toEqual({ min: 0, max: 8_000 });
    expect(axisEnds([Number.NaN])).toBeUndefined();
  });

  it('has the number on head and foot of each page, escaped', () => {
    const { head, foot } = headAndFoot({ number: '<7>', title: 'Certificate', notices: [] });
    expect(head).toContain('&lt;7&gt;');
    expect(foot).toContain('&lt;7&gt;');
    expect(foot).toMatch(/class="pageNumber".*class="totalPages"/);
  });
});
