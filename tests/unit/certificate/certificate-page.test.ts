import { describe, expect, it } from 'vitest';
import { certificateCsv } from '../../../core/certificate/certificate-csv.ts';
import { composeCertificate } from '../../../core/certificate/compose-certificate.ts';
import { certificatePage } from '../../../core/certificate/paper/certificate-page.ts';
import { axisEnds } from '../../../core/certificate/paper/axis-ends.ts';
import { outcomeMark } from '../../../core/certificate/paper/fact-list.ts';
import { headAndFoot } from '../../../core/certificate/paper/head-and-foot.ts';
import { ENGLISH_PAPER } from '../../../core/words/paper-words.ts';
import { SPANISH_PAPER } from '../../../core/words/es/spanish-paper.ts';
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

  it('the same of every field that a person or an own rule pack fills: shown as text, on its own, whole', () => {
    const hostile = `<img src=x onerror=1>\u202eleft${'x'.repeat(260)}`;
    const escaped = `<bdi>${hostile.replaceAll('<', '&lt;').replaceAll('>', '&gt;')}</bdi>`;
    const example = exampleInput();
    const [specimen] = example.specimens;
    if (example.set === null || specimen?.record === undefined || specimen.record === null)
      throw new Error('no example');
    const text = page({
      set: {
        ...example.set,
        form: { ...example.set.form, customer: hostile, notes: hostile, fewerReason: hostile },
        pack: { ...example.set.pack, name: hostile, edition: hostile },
        origin: { file: hostile, sha256: 'cd'.repeat(32) },
      },
      specimens: [
        {
          ...specimen,
          member: { specimenId: hostile, voided: { by: hostile, reason: hostile } },
          fractureRemarks: hostile,
          fractureNotedBy: hostile,
          photos: [{ photoId: 1, sha256: 'ab'.repeat(32), mediaType: 'image/jpeg', caption: hostile }],
          record: { ...specimen.record, operator: hostile },
        },
      ],
      signatures: [{ printedName: hostile, at: '2031-04-02', meaning: 'tested by' }],
    });
    expect(text).not.toContain('<img');
    // Customer, notes, reason, rules, edition, specimen, remarks, noted by, caption, operator, signature: each by itself.
    expect(text.split(escaped).length - 1).toBeGreaterThanOrEqual(11);
  });

  it('tells moments as people read them, and leaves one that was typed as it was typed', () => {
    const moment = '2040-01-05T08:00:07.250+01:00';
    const text = page({
      issued: moment,
      laboratory: { name: moment, lines: [] },
      signatures: [{ printedName: 'A. Person', at: '2040-01-05T09:00:00Z', meaning: 'tested by' }],
    });
    expect(text).toContain('<bdi>2040-01-05 08:00:07 (UTC+01:00)</bdi>');
    expect(text).toContain('2040-01-05 09:00:00 (UTC)');
    expect(text).toContain(`<bdi>${moment}</bdi>`);
  });

  it('allows no script and no request for anything outside', () => {
    expect(page()).toContain("default-src 'none'");
    expect(page()).not.toMatch(/(src|href)="?(https?:|\/\/|file:)/);
  });

  it('draws the curve as vectors with its marks, and names its photo where the picture is not at hand', () => {
    const text = page();
    expect(text).toMatch(/<svg[^>]*>[\s\S]*<path d="M/);
    expect(text).toContain('maximum');
    expect(text).toContain('fracture');
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

  it.each([
    ['accept', 'ACCEPTED', 'ACEPTADO'],
    ['reject', 'REJECTED', 'RECHAZADO'],
    ['undecided', 'UNDECIDED', 'SIN DECIDIR'],
  ] as const)('marks a set as %s in its own gender, with what stands beside', (outcome, english, spanish) => {
    const marks = [ENGLISH_PAPER, SPANISH_PAPER].flatMap((words) =>
      [null, 'SIMULATED'].map((beside) => outcomeMark({ of: 'set', outcome, beside }, words).html),
    );
    expect(marks.map((mark) => mark.replace(/<[^>]*>/g, '').trim())).toEqual([
      english,
      `${english} · SIMULATED`,
      spanish,
      `${spanish} · SIMULATED`,
    ]);
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

  it('says in the file of rows whatever the paper says: doubts, what is missing, remarks', () => {
    const content = composeCertificate(exampleInput());
    const [specimen] = content.specimens;
    if (specimen?.verdict === null || specimen === undefined) throw new Error('no verdict');
    const rows = certificateCsv({
      ...content,
      setVerdict: { outcome: 'undecided', sentence: 'One is missing.', remarks: ['one more is asked for'] },
      specimens: [
        {
          ...specimen,
          results: specimen.results.map((row) => ({ ...row, remarks: ['readings far apart'] })),
          verdict: { ...specimen.verdict, missing: ['the filler class is not said'] },
        },
      ],
    });
    for (const said of [
      ...specimen.verdict.questionable,
      'the filler class is not said',
      'one more is asked for',
      'readings far apart',
    ])
      expect(rows).toContain(said);
    expect(specimen.verdict.questionable.length).toBeGreaterThan(0);
    // 60 000 N at 5 % of 50 mm.
    expect(rows).toMatch(/^curve,T-1,maximum[^,]*,"?extension, mm: 2\.5; force, N: 60000"?$/m);
    expect(rows).toMatch(/Rm uncertainty,± [\d.]+ MPa \(k = [\d.]+\); ± \d+ psi/);
  });

  it('sets remarks as sentences one after the other, however each of them ends', () => {
    const content = composeCertificate(exampleInput());
    const text = certificatePage(
      {
        ...content,
        specimens: content.specimens.map((one) => ({
          ...one,
          results: one.results.map((row) => ({ ...row, remarks: ['It ends so.', 'and so', 'Or so?'] })),
        })),
      },
      { paper: 'A4', fonts: [] },
    );
    expect(text).toContain('It ends so. and so. Or so?');
    expect(text).not.toContain('..');
  });

  it('has room to sign by hand where nobody has signed it in the archive, and says what that is', () => {
    const unsigned = certificatePage(composeCertificate(exampleInput({ signatures: [] })), {
      paper: 'A4',
      fonts: [],
    });
    expect(unsigned).toMatch(/No signature is kept under this certificate\./);
    expect(unsigned).toContain('approved by: printed name, date, time, signature');
    expect(page()).not.toContain('No signature is kept');
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
