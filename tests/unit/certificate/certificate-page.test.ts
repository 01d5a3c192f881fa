import { describe, expect, it } from 'vitest';
import { composeCertificate } from '../../../core/certificate/compose-certificate.ts';
import { certificatePage } from '../../../core/certificate/paper/certificate-page.ts';
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

  it('shows an override beside what the rules alone give', () => {
    const text = page();
    expect(text).toContain('ACCEPTED');
    expect(text).toMatch(/verified the day after/);
  });

  it('has the number on head and foot of each page, escaped', () => {
    const { head, foot } = headAndFoot('<7>', 'Certificate');
    expect(head).toContain('&lt;7&gt;');
    expect(foot).toContain('&lt;7&gt;');
    expect(foot).toMatch(/class="pageNumber".*class="totalPages"/);
  });
});
