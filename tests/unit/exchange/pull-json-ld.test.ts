/** The linked-data form, expanded by an independent library and checked against the terms of TTO 3.0.0. */
import jsonld from 'jsonld';
import { readFileSync } from 'node:fs';
import { describe, expect, it } from 'vitest';
import { z } from 'zod';
import { type PullJsonLdInput, pullJsonLd } from '../../../core/exchange/export/pull-json-ld.ts';
import { TTO_DIMENSIONS, ttoTermOf } from '../../../core/exchange/export/tto-terms.ts';
import { evaluate } from '../../../core/results/evaluate.ts';
import { readSpecimen } from '../../../core/specimen/read-specimen.ts';
import { curveOfReadings } from './curve-of-readings.ts';
import { pull } from './sample-pull.ts';

const published = z
  .object({
    versionIri: z.string(),
    terms: z.array(z.object({ iri: z.string(), label: z.string(), symbol: z.string().optional() })),
    beside: z.array(z.object({ iri: z.string() })),
  })
  .parse(
    JSON.parse(
      readFileSync(new URL('../../../fixtures/ontology/tto-3.0.0-terms.json', import.meta.url), 'utf8'),
    ),
  );

const PMD = 'https://w3id.org/pmd/co/';
const OBO = 'http://purl.obolibrary.org/obo/';
const TYPE = 'http://www.w3.org/1999/02/22-rdf-syntax-ns#type';

function input(change: Partial<PullJsonLdInput> = {}): PullJsonLdInput {
  const specimen = readSpecimen({ ...pull.specimen.specimen, finalGaugeLength: '61.2 mm' });
  if (!specimen.ok) throw new Error('the specimen is sound');
  return {
    pull,
    specimen: specimen.specimen,
    evaluation: evaluate(curveOfReadings(), specimen.specimen, {}),
    baseIri: 'https://example.org/pull/7#',
    ...change,
  };
}

const quadsOf = (change: Partial<PullJsonLdInput> = {}) =>
  jsonld.toRDF(pullJsonLd(input(change)), { safe: true });

describe('the terms', () => {
  it('are in the ontology, with its labels', () => {
    const all = [
      ...Object.values(TTO_DIMENSIONS),
      ...[
        'S0',
        'Su',
        'Fm',
        'Rm',
        'ReH',
        'ReL',
        'Rp0.1',
        'Rp0.2',
        'Rp1',
        'Rt0.5',
        'A',
        'Ag',
        'Agt',
        'At',
        'Ae',
        'Z',
        'Rp0.2/Rm',
      ].map(ttoTermOf),
    ];
    for (const term of all) {
      const found = published.terms.find((t) => t.iri === `https://w3id.org/pmd/tto/${term?.id ?? 'none'}`);
      expect(found?.label).toBe(term?.label);
    }
  });

  it('carry the symbol of the standard that the program uses', () => {
    for (const symbol of ['Rm', 'ReH', 'ReL', 'Rp0.2', 'A', 'Ag', 'Agt', 'At', 'Ae', 'Z']) {
      const iri = `https://w3id.org/pmd/tto/${ttoTermOf(symbol)?.id ?? ''}`;
      const inOntology = published.terms.find((t) => t.iri === iri)?.symbol?.replaceAll('_', '');
      expect(inOntology).toBe(symbol);
    }
  });

  it('are none where the ontology has none', () => {
    expect(['mE', 'n', 'K', 'L0', 'U'].map(ttoTermOf)).toEqual([null, null, null, null, null]);
  });
});

describe('the linked-data form of a pull', () => {
  it('uses terms of the ontology and of what it stands on, and no others of theirs', async () => {
    const known = new Set([...published.terms, ...published.beside].map((t) => t.iri));
    const used = (await quadsOf()).flatMap((q) => [
      q.predicate.value,
      ...(q.object.termType === 'NamedNode' ? [q.object.value] : []),
    ]);
    const theirs = used.filter((iri) => iri.startsWith('https://w3id.org/pmd/') || iri.startsWith(OBO));
    expect(theirs.length).toBeGreaterThan(50);
    expect(theirs.filter((iri) => !known.has(iri) && iri !== published.versionIri)).toEqual([]);
  });

  it('states each value once, with unit, about a quality that points back (the ontology example’s own checks)', async () => {
    const quads = await quadsOf();
    const objects = (subject: string, predicate: string): string[] =>
      quads
        .filter((q) => q.subject.value === subject && q.predicate.value === predicate)
        .map((q) => q.object.value);
    const data = quads
      .filter((q) => q.predicate.value === TYPE && q.object.value === `${PMD}PMD_0000023`)
      .map((q) => q.subject.value);
    expect(data.length).toBeGreaterThan(5);
    for (const datum of data) {
      const [specification, ...more] = objects(datum, `${PMD}PMD_0060000`);
      expect(more).toEqual([]);
      expect(objects(specification ?? '', `${PMD}PMD_0000006`)).toHaveLength(1);
      expect(objects(specification ?? '', `${PMD}PMD_0000020`)).toHaveLength(1);
      const [quality] = objects(specification ?? '', `${PMD}PMD_0060001`);
      expect(objects(quality ?? '', `${OBO}IAO_0000417`)).toEqual([datum]);
      expect(quads.some((q) => q.predicate.value === `${OBO}RO_0000086` && q.object.value === quality)).toBe(
        true,
      );
    }
    const process = 'https://example.org/pull/7#process';
    const result = 'https://example.org/pull/7#result';
    expect(objects(process, `${OBO}OBI_0000299`)).toContain(result);
    expect(new Set(objects(result, `${OBO}BFO_0000051`))).toEqual(new Set(data));
  });

  it('gives the maximum force unrounded in newtons', async () => {
    const quads = await quadsOf();
    const value = quads.find(
      (q) => q.subject.value.endsWith('#Fm-value') && q.predicate.value === `${PMD}PMD_0000006`,
    );
    expect(Number(value?.object.value)).toBe(12_380);
    expect(value?.object.datatype?.value).toBe('http://www.w3.org/2001/XMLSchema#double');
    const unit = quads.find(
      (q) => q.subject.value.endsWith('#Fm-value') && q.predicate.value === `${PMD}PMD_0000020`,
    );
    expect(unit?.object.value).toBe('http://qudt.org/vocab/unit/N');
  });

  it('tells a broken piece from one that did not break, and a simulated pull from a real one', async () => {
    const types = async (change: Partial<PullJsonLdInput>) =>
      (await quadsOf(change)).filter((q) => q.predicate.value === TYPE).map((q) => q.object.value);
    expect(await types({})).toContain('https://w3id.org/pmd/tto/TTO_0000006');
    expect(await types({ pull: { ...pull, broke: false } })).toContain(
      'https://w3id.org/pmd/tto/TTO_0000007',
    );
    const simulated = pullJsonLd(
      input({ pull: { ...pull, source: { kind: 'simulated', scenario: 'mild-steel' } } }),
    );
    expect(JSON.stringify(simulated)).toContain('no specimen was pulled');
  });

  it('begins at the stated day of an imported pull, and says that it was stated', () => {
    const start = (change: Partial<PullJsonLdInput['pull']>) => {
      const graph = pullJsonLd(input({ pull: { ...pull, ...change } }))['@graph'];
      return [graph.find((node) => node['@type'] === 'time:Instant'), graph[0]?.['rdfs:comment']];
    };
    const source = { kind: 'imported', file: 'x.csv' } as PullJsonLdInput['pull']['source'];
    const day = { statedDayId: 1, pulledOn: '2019-05-14T10:30', by: null, supersedes: null, reason: null };
    const statedDays = [{ ...day, wallMs: pull.startedWallMs }];
    const [instant, said] = start({ source, pulledOn: '2019-05-14T10:30', statedDays });
    // OWL-Time (W3C, 2022), 4.1: time:inXSDDate is a date of the proleptic calendar without the time of day.
    expect(instant).toMatchObject({ 'time:inXSDDate': { '@value': '2019-05-14', '@type': 'xsd:date' } });
    expect(instant).not.toHaveProperty('time:inXSDDateTimeStamp');
    expect(said).toContainEqual(expect.stringContaining('Pulled on 2019-05-14 10:30 (stated at import)'));
    expect(start({ source })[1]).toContainEqual(expect.stringContaining('when it was pulled is not stated'));
    expect(JSON.stringify(start({}))).not.toContain('imported');
  });

  it('leaves out what comes from crosshead travel, and says what it left out', () => {
    const base = input();
    const rp = {
      ...(base.evaluation.results[0] ?? never()),
      symbol: 'Rp0.2',
      value: 300,
      unit: 'MPa' as const,
    };
    const slope = { ...rp, symbol: 'mE' };
    const strain = { channel: 'travel', lengthMm: 50, lengthName: 'parallel length' } as const;
    const document = JSON.stringify(
      pullJsonLd({ ...base, evaluation: { ...base.evaluation, strain, results: [rp, slope] } }),
    );
    expect(document).not.toContain('TTO_0000047');
    expect(document).toContain('not in this file: Rp0.2, mE');
  });

  it('refuses a base that can begin no identity', () => {
    expect(() => pullJsonLd(input({ baseIri: 'pull 7' }))).toThrow(RangeError);
  });
});

function never(): never {
  throw new Error('the evaluation has results');
}
