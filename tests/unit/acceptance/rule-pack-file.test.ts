import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { judgeSet } from '../../../core/acceptance/judge-set.ts';
import { builtInPacks, findPack } from '../../../core/acceptance/packs.ts';
import {
  readRulePack,
  readRulePackText,
  selfContainedPackFile,
} from '../../../core/acceptance/read-rule-pack.ts';
import { materialTables } from '../../../core/acceptance/tables.ts';
import { allCases } from '../../../core/self-check/all-cases.ts';
import { OWN_PACK, judged, packOf } from './judging.ts';

type Json = Record<string, unknown>;
/** A copy of the pack with one field set by path. */
function withField(path: readonly (string | number)[], value: unknown): Json {
  const copy = structuredClone(OWN_PACK) as unknown as Json;
  let at = copy;
  for (const step of path.slice(0, -1)) at = at[step] as Json;
  at[path.at(-1) ?? ''] = value;
  return copy;
}

function faultsOf(file: unknown): string {
  const read = readRulePack(file);
  return read.ok ? '' : read.faults.map((fault) => `[${fault.field}] ${fault.sentence}`).join('\n');
}

describe('a rule pack written by a laboratory', () => {
  it('judges without any code', () => {
    const pack = packOf(OWN_PACK);
    const asked = { baseMetals: ['HB-9'], broke: 'weld-metal' } as const;
    expect(
      judged(pack, { ...asked, strength: '450 MPa', elongation: '10.5 %', appearance: 'ductile' }).clause,
    ).toBe('4.1');
    expect(
      judged(pack, { ...asked, strength: '450 MPa', elongation: '10 %', appearance: 'ductile' }).outcome,
    ).toBe('reject');
    expect(
      judged(pack, { ...asked, strength: '449.9 MPa', elongation: '15 %', appearance: 'ductile' }).outcome,
    ).toBe('reject');
    expect(judged(pack, { ...asked, strength: '500 MPa', appearance: 'shear' })).toMatchObject({
      outcome: 'accept',
      clause: '4.2',
    });
    expect(judged(pack, { ...asked, strength: '900 MPa', appearance: 'brittle' })).toMatchObject({
      outcome: 'reject',
      limit: null,
    });
  });

  it('waits for the appearance where the answer depends on it, and only then', () => {
    const verdict = judged(packOf(OWN_PACK), {
      baseMetals: ['HB-9'],
      broke: 'weld-metal',
      strength: '900 MPa',
    });
    expect(verdict.outcome).toBe('undecided');
    expect(verdict.missing.map((fact) => fact.code)).toContain('appearance');
  });

  it('may let the higher of two minima govern', () => {
    const verdict = judged(packOf(OWN_PACK), {
      baseMetals: ['HB-9', 'other'],
      minima: ['520 MPa'],
      broke: 'weld-metal',
      appearance: 'shear',
      strength: '510 MPa',
    });
    expect(verdict).toMatchObject({ outcome: 'reject', limit: { value: 520 } });
  });
});

describe('a wrong pack is refused, with the field, what is wrong and what to do', () => {
  it.each([
    ['an unknown clause', ['rules', 1, 'clause'], '9.9', /\[rules\[1\]\.clause\].*unknown.*4\.1, 4\.2, 4\.3/],
    [
      'a negative minimum',
      ['baseMetals', 0, 'tensile', 'si', 'min'],
      '-500 MPa',
      /\[baseMetals\[0\]\.tensile\.si\.min\].*negative/,
    ],
    ['a minimum of zero', ['baseMetals', 0, 'tensile', 'si', 'min'], '0 MPa', /zero/],
    [
      'two units in one value',
      ['baseMetals', 0, 'tensile', 'si', 'min'],
      '60 ksi (415 MPa)',
      /two values or two units/,
    ],
    [
      'the figure of the other system',
      ['baseMetals', 0, 'tensile', 'si', 'min'],
      '60 ksi',
      /holds the SI figure/,
    ],
    ['a value without a unit', ['baseMetals', 0, 'tensile', 'si', 'min'], '500', /has no unit/],
    ['a number in place of a text', ['baseMetals', 0, 'tensile', 'si', 'min'], 500, /as text with its unit/],
    ['a unit of something else', ['baseMetals', 0, 'tensile', 'si', 'min'], '5 mm', /stress is needed/],
    [
      'minimum above maximum',
      ['baseMetals', 0, 'tensile', 'si'],
      { min: '500 MPa', max: '400 MPa' },
      /above/,
    ],
    [
      'minimum and maximum in two units',
      ['baseMetals', 0, 'tensile'],
      { us: { min: '60000 psi', max: '80 ksi' } },
      /one unit/,
    ],
    ['no format', ['format'], 'other', /\[format\].*gaugemark-rules/],
    ['a newer form', ['version'], 2, /\[version\]/],
    [
      'an unknown place of fracture',
      ['rules', 0, 'when'],
      { broke: ['flange'] },
      /one of "weld-metal", "fusion-line"/,
    ],
    ['a misspelt field', ['rules', 0, 'wen'], {}, /\[rules\[0\]\.wen\].*no such field/],
    ['a factor above two', ['rules', 1, 'require', 0, 'factor'], '9', /at most 2/],
    ['a factor that is no text', ['rules', 1, 'require', 0, 'factor'], 0.9, /as text/],
    [
      'a limit and its origin at once',
      ['rules', 1, 'require', 0, 'limit'],
      '60 ksi',
      /either "limit".*or "limitOf"/,
    ],
    ['an elongation in MPa', ['rules', 1, 'require', 1, 'limit'], '10 MPa', /strain is needed/],
    ['an unknown table', ['baseMetalTables'], ['no-such'], /no table "no-such"/],
    ['no rule', ['rules'], [], /\[rules\]/],
    ['nothing missing but the name', ['name'], undefined, /\[name\].*missing/],
    ['an id with blanks', ['id'], 'Our Shop', /lower-case/],
    ['two rules of one id', ['rules', 2, 'id'], 'ductile', /used twice/],
    ['a kind that does not exist', ['kind'], 'law', /"code" or "practice"/],
    ['no word on two base metals', ['severalBaseMetals'], undefined, /which minimum governs/],
    [
      'a length that is none',
      ['specimens'],
      { required: [{ count: 2, clause: '4.1', says: 'x', when: { wallUpTo: '5 kN' } }] },
      /length is needed/,
    ],
  ] as const)('%s', (_what, path, value, expected) => {
    expect(faultsOf(withField(path, value))).toMatch(expected);
  });

  it('a rule that would accept everything', () => {
    expect(faultsOf(withField(['rules', 2, 'require'], []))).toMatch(/would accept every specimen/);
  });

  it('a pack that can only reject', () => {
    expect(faultsOf(withField(['rules'], [OWN_PACK.rules[0]]))).toMatch(/no rule accepts/);
  });

  it.each([
    ['no JSON', '{"format": ', /not JSON/],
    ['a list', '[]', /one object/],
    ['nothing', '', /not JSON/],
  ])('%s', (_what, text, expected) => {
    const read = readRulePackText(text);
    expect(read.ok ? '' : read.faults[0]?.sentence).toMatch(expected);
  });

  it('tells every fault at once', () => {
    const file = withField(['kind'], 'law');
    file.edition = 7;
    expect(faultsOf(file).split('\n')).toHaveLength(2);
  });

  it('never throws, whatever the file holds', () => {
    fc.assert(
      fc.property(fc.constantFrom(...paths(OWN_PACK)), fc.jsonValue(), (path, value) => {
        readRulePack(withField(path, value));
      }),
      { numRuns: 300 },
    );
  });
});

describe('the packs of the program', () => {
  it('are found by the names that people use', () => {
    for (const [asked, id] of [
      ['ASME IX', 'asme-ix'],
      ['asme bpvc ix', 'asme-ix'],
      ['D1.1', 'aws-d1.1'],
      ['AWS D1.1', 'aws-d1.1'],
      ['API 1104 20th edition', 'api-1104-20'],
      ['API1104-21', 'api-1104-21'],
      ['iso 15614-1', 'iso-15614-1'],
      ['AWS A5.1', 'aws-a5.1'],
      ['a5.1m', 'aws-a5.1m'],
      ['AWS A5.18', 'aws-a5.18'],
    ] as const) {
      const found = findPack(asked);
      expect(found.kind === 'found' ? found.item.file.id : found.kind, asked).toBe(id);
    }
  });

  it.each([
    ['API 1104', ['api-1104-20', 'api-1104-21']],
    ['A5.1/A5.1M', ['aws-a5.1', 'aws-a5.1m']],
  ])('%s is ambiguous and refused, not guessed', (asked, ids) => {
    const found = findPack(asked);
    expect(found.kind === 'ambiguous' ? found.candidates.map((pack) => pack.file.id) : []).toEqual(ids);
  });

  it('say for every clause and every material where it comes from', () => {
    for (const { file } of builtInPacks()) {
      for (const clause of file.clauses) expect(clause.source, `${file.id} ${clause.id}`).not.toBe('');
      if (file.kind === 'practice') expect(file.source).toBe('common practice, no source');
    }
    for (const table of materialTables().values()) {
      for (const material of table.materials) {
        expect(material.status, `${table.id} ${material.id}`).not.toBe('own');
        expect(material.source.length).toBeGreaterThan(5);
      }
    }
  });

  it('name only other packs that exist', () => {
    const ids = new Set(builtInPacks().map((pack) => pack.file.id));
    for (const { file } of builtInPacks()) {
      for (const other of file.otherPacks) expect(ids, `${file.id} → ${other}`).toContain(other);
    }
  });

  it('can be written out as one file, read again, and judge the same', () => {
    for (const pack of builtInPacks()) {
      const again = packOf(JSON.parse(JSON.stringify(selfContainedPackFile(pack))) as unknown);
      expect(again.baseMetals.length, pack.file.id).toBe(pack.baseMetals.length);
      const [metal, filler] = [pack.baseMetals[0], pack.fillers[0]];
      const request = {
        ...(metal === undefined ? {} : { baseMetals: [metal.id] }),
        ...(filler === undefined ? {} : { filler: filler.id }),
        strength: '70 ksi',
        yield: '60 ksi',
        elongation: '25 %',
        broke: 'weld-metal',
      };
      expect(judged(again, request).sentence).toBe(judged(pack, request).sentence);
    }
  });
});

/** Every path into a JSON value. */
function paths(value: unknown, at: readonly (string | number)[] = []): (string | number)[][] {
  if (typeof value !== 'object' || value === null) return [[...at]];
  const entries: (readonly [string | number, unknown])[] = Array.isArray(value)
    ? value.map((entry, index) => [index, entry as unknown] as const)
    : Object.entries(value);
  return [
    ...(at.length > 0 ? [[...at]] : []),
    ...entries.flatMap(([key, inner]) => paths(inner, [...at, key])),
  ];
}

describe('sources of the program’s packs and tables', () => {
  it('are the clause itself, a publisher’s or maker’s page, or memory: never a forum or a copy on a sharing site', () => {
    const texts = [
      ...builtInPacks().map((pack) => JSON.stringify(selfContainedPackFile(pack))),
      ...allCases.map(({ source }) => source),
    ];
    for (const text of texts)
      expect(text).not.toMatch(
        /scribd|studylib|eng-tips|vdocuments|freestandards|onetb|biao-zhun|ilovetranslation|forum|tpub|what-when-how|jsfiddle|exam-prep/,
      );
  });

  it('what is from memory says so by its status too', () => {
    for (const pack of builtInPacks())
      for (const { id, status, source } of pack.file.clauses)
        if (/^from memory/.test(source))
          expect([pack.file.id, id, status]).toEqual([pack.file.id, id, 'memory']);
  });

  // ASME BPVC IX, QW-153.1(e): alclad aluminium, P-No. 21 to 23.
  it('ASME IX: full thickness and core of thick alclad aluminium are specimens of one set, and one that fails rejects it', () => {
    const pack = builtInPacks().find(({ file }) => file.id === 'asme-ix');
    if (pack === undefined) throw new Error('no pack');
    expect(pack.file.clauses.find(({ id }) => id === 'QW-153.1(e)')).toMatchObject({ status: 'published' });
    const set = (core: 'accept' | 'reject') =>
      judgeSet({
        pack,
        requiredCount: 4,
        members: [
          { specimenId: 'full 1', outcome: 'accept' },
          { specimenId: 'full 2', outcome: 'accept' },
          { specimenId: 'core 1', outcome: 'accept' },
          { specimenId: 'core 2', outcome: core },
        ],
      }).outcome;
    expect([set('accept'), set('reject')]).toEqual(['accept', 'reject']);
  });
});
