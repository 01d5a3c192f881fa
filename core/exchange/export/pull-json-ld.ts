/**
 * A pull as linked data (JSON-LD) for those who publish results: process, test piece, dimensions and results in terms
 * of the Tensile Test Ontology and of the PMD Core Ontology that it stands on, in the patterns of its own example.
 * Values are unrounded, each with its unit. The curve is not in it: a CSV or JSON of the pull has that.
 */
import type { KeptPull } from '../../contract/pull-requests.ts';
import { ORIGIN_NOTICES, originOfPull } from '../../pull/readings-origin.ts';
import { pulledOnText } from '../../pull/stated-day.ts';
import type { UnitSymbol } from '../../quantity/units.ts';
import type { Evaluation } from '../../results/evaluation.ts';
import type { MeasuredDimension, Specimen } from '../../specimen/specimen.ts';
import { momentText } from './moment-text.ts';
import {
  TTO_BROKEN,
  TTO_DIMENSIONS,
  TTO_RESULT,
  TTO_UNBROKEN,
  TTO_VERSION_IRI,
  type TtoTerm,
  needsExtensometer,
  ttoTermOf,
} from './tto-terms.ts';

export interface PullJsonLdInput {
  readonly pull: KeptPull;
  readonly specimen: Specimen;
  readonly evaluation: Evaluation;
  /** Begins every identity; ends with "#", "/" or ":". Default: a URN of the pull's number. */
  readonly baseIri?: string;
}

export interface JsonLdNode {
  readonly '@id': string;
  readonly [property: string]: unknown;
}

export interface PullJsonLd {
  readonly '@context': Readonly<Record<string, unknown>>;
  readonly '@graph': readonly JsonLdNode[];
}

/** Prefixes as the ontology's own example writes them. Units are those of QUDT. */
const CONTEXT = {
  tto: 'https://w3id.org/pmd/tto/',
  pmdco: 'https://w3id.org/pmd/co/',
  obo: 'http://purl.obolibrary.org/obo/',
  unit: 'http://qudt.org/vocab/unit/',
  time: 'http://www.w3.org/2006/time#',
  dcterms: 'http://purl.org/dc/terms/',
  rdfs: 'http://www.w3.org/2000/01/rdf-schema#',
  xsd: 'http://www.w3.org/2001/XMLSchema#',
} as const;

const QUDT: Readonly<Partial<Record<UnitSymbol, string>>> = {
  N: 'unit:N',
  mm: 'unit:MilliM',
  'mm²': 'unit:MilliM2',
  MPa: 'unit:MegaPA',
  '%': 'unit:PERCENT',
  '1': 'unit:UNITLESS',
};

/** Throws a RangeError where the base can't begin an identity. */
export function pullJsonLd(input: PullJsonLdInput): PullJsonLd {
  const base = input.baseIri ?? `urn:gaugemark:pull:${String(input.pull.pullId)}:`;
  if (!/^[a-z][a-z0-9+.-]*:\S*[#/:]$/i.test(base))
    throw new RangeError(`"${base}" must be an absolute IRI that ends with "#", "/" or ":"`);
  return { '@context': CONTEXT, '@graph': new Graph(input, base).nodes() };
}

interface Measured {
  readonly name: string;
  readonly term: TtoTerm;
  readonly value: number;
  readonly unit: string;
  /** The node that has the quality. */
  readonly bearer: string;
}

class Graph {
  readonly #input: PullJsonLdInput;
  readonly #base: string;

  constructor(input: PullJsonLdInput, base: string) {
    this.#input = input;
    this.#base = base;
  }

  nodes(): JsonLdNode[] {
    const measured = [...this.#dimensions(), ...this.#results()];
    return [
      this.#description(),
      this.#process(measured),
      {
        '@id': this.#id('result'),
        '@type': type(TTO_RESULT),
        'obo:BFO_0000051': measured.map((m) => this.#ref(`${m.name}-datum`)),
      },
      this.#piece('test-piece', 'pmdco:PMD_0000975', 'test piece role', measured),
      this.#piece(
        'tested-piece',
        type(this.#input.pull.broke ? TTO_BROKEN : TTO_UNBROKEN),
        this.#input.pull.broke ? TTO_BROKEN.label : TTO_UNBROKEN.label,
        measured,
      ),
      ...this.#identifier('test-piece', 'test piece identifier', this.#input.pull.specimenName),
      ...this.#identifier('process', 'pull number', String(this.#input.pull.pullId)),
      { '@id': this.#id('start'), '@type': 'time:Instant', ...this.#start() },
      ...measured.flatMap((m) => this.#measurement(m)),
    ];
  }

  /** Where the start of an imported pull comes from: never from a clock at the frame. */
  #dayRemark(): string[] {
    const { pull } = this.#input;
    if (pull.source.kind !== 'imported') return [];
    const imported = momentText(pull.startedWallMs, pull.startedUtcOffsetMinutes);
    const stated = pulledOnText(pull);
    return [
      stated === null
        ? `Imported from a file at ${imported}; when it was pulled is not stated, and its start is that moment.`
        : `Pulled on ${stated}; imported from a file at ${imported}.`,
    ];
  }

  /** As stated: a day, without the offset that a time stamp needs. Else the moment of the record. */
  #start(): Readonly<Record<string, unknown>> {
    const { startedWallMs, startedUtcOffsetMinutes, pulledOn } = this.#input.pull;
    if (pulledOn !== null)
      return { 'time:inXSDDate': { '@value': pulledOn.slice(0, 10), '@type': 'xsd:date' } };
    return {
      'time:inXSDDateTimeStamp': {
        '@value': momentText(startedWallMs, startedUtcOffsetMinutes),
        '@type': 'xsd:dateTimeStamp',
      },
    };
  }

  /** What the data set is, by which version of the ontology, and what could not be said in its terms. */
  #description(): JsonLdNode {
    const { pull, evaluation } = this.#input;
    const origin = originOfPull(pull);
    const unsaid = evaluation.results.filter(
      (r) => this.#termOf(r.symbol) === null || QUDT[r.unit] === undefined,
    );
    const remarks = [
      ...(origin === null ? [] : [ORIGIN_NOTICES[origin]]),
      ...this.#dayRemark(),
      ...(unsaid.length === 0
        ? []
        : [
            `Results without a term in the ontology, not in this file: ${unsaid.map((r) => r.symbol).join(', ')}.`,
          ]),
    ];
    return {
      '@id': this.#base,
      'dcterms:conformsTo': { '@id': TTO_VERSION_IRI },
      'dcterms:creator': `Gaugemark ${pull.programVersion}, method ${evaluation.methodVersion}`,
      ...(remarks.length === 0 ? {} : { 'rdfs:comment': remarks }),
    };
  }

  #process(measured: readonly Measured[]): JsonLdNode {
    return {
      '@id': this.#id('process'),
      '@type': 'pmdco:PMD_0000974',
      'rdfs:label': 'tensile testing process',
      'obo:OBI_0000293': this.#ref('test-piece'),
      'obo:OBI_0000299': [
        this.#ref('result'),
        this.#ref('tested-piece'),
        ...measured.map((m) => this.#ref(`${m.name}-datum`)),
      ],
      'obo:BFO_0000108': this.#ref('start'),
    };
  }

  #piece(name: string, roleType: string, roleLabel: string, measured: readonly Measured[]): JsonLdNode {
    const qualities = measured.filter((m) => m.bearer === name).map((m) => this.#ref(m.name));
    return {
      '@id': this.#id(name),
      '@type': 'obo:BFO_0000030',
      'obo:BFO_0000196': { '@id': this.#id(`${name}-role`), '@type': roleType, 'rdfs:label': roleLabel },
      ...(qualities.length === 0 ? {} : { 'obo:RO_0000086': qualities }),
    };
  }

  #identifier(of: string, label: string, value: string): JsonLdNode[] {
    return [
      {
        '@id': this.#id(`${of}-identifier`),
        '@type': 'pmdco:PMD_0000017',
        'rdfs:label': label,
        'obo:IAO_0000219': this.#ref(of),
        'pmdco:PMD_0060000': {
          '@id': this.#id(`${of}-identifier-value`),
          '@type': 'obo:OBI_0001933',
          'pmdco:PMD_0000006': value,
        },
      },
    ];
  }

  /** Quality, measurement datum and value specification: the pattern for a scalar in the core ontology. */
  #measurement({ name, term, value, unit }: Measured): JsonLdNode[] {
    return [
      {
        '@id': this.#id(name),
        '@type': type(term),
        'rdfs:label': term.label,
        'obo:IAO_0000417': this.#ref(`${name}-datum`),
      },
      {
        '@id': this.#id(`${name}-datum`),
        '@type': 'pmdco:PMD_0000023',
        'obo:IAO_0000136': this.#ref(name),
        'pmdco:PMD_0060000': {
          '@id': this.#id(`${name}-value`),
          '@type': 'pmdco:PMD_0000022',
          'pmdco:PMD_0060001': this.#ref(name),
          'pmdco:PMD_0000006': { '@value': String(value), '@type': 'xsd:double' },
          'pmdco:PMD_0000020': { '@id': unit, '@type': 'obo:IAO_0000003' },
        },
      },
    ];
  }

  #dimensions(): Measured[] {
    const { specimen } = this.#input;
    const { geometry } = specimen;
    const before: [keyof typeof TTO_DIMENSIONS, MeasuredDimension | number | undefined][] = [
      ['width', geometry.kind === 'flat' || geometry.kind === 'pipe-strip' ? geometry.width : undefined],
      ['thickness', geometry.kind === 'flat' ? geometry.thickness : undefined],
      ['diameter', geometry.kind === 'round' ? geometry.diameter : undefined],
      ['gaugeLength', specimen.gaugeLength],
      ['extensometerGaugeLength', specimen.extensometerGaugeLengthMm],
      ['parallelLength', specimen.parallelLengthMm],
    ];
    const after: typeof before = [
      ['finalGaugeLength', specimen.finalGaugeLength],
      ['finalWidth', specimen.finalWidth],
      ['finalThickness', specimen.finalThickness],
      ['finalDiameter', specimen.finalDiameter],
    ];
    const listed = (dimensions: typeof before, bearer: string): Measured[] =>
      dimensions.flatMap(([key, dimension]) => {
        if (dimension === undefined) return [];
        const value = typeof dimension === 'number' ? dimension : dimension.mean;
        return [{ name: kebab(key), term: TTO_DIMENSIONS[key], value, unit: 'unit:MilliM', bearer }];
      });
    return [...listed(before, 'test-piece'), ...listed(after, 'tested-piece')];
  }

  #results(): Measured[] {
    return this.#input.evaluation.results.flatMap(({ symbol, value, unit }) => {
      const term = this.#termOf(symbol);
      const qudt = QUDT[unit];
      if (term === null || qudt === undefined) return [];
      const bearer = symbol === 'Su' || symbol === 'Z' ? 'tested-piece' : 'test-piece';
      return [{ name: symbol.replace(/[^A-Za-z0-9.]+/g, '-'), term, value, unit: qudt, bearer }];
    });
  }

  #termOf(symbol: string): TtoTerm | null {
    const fromTravel = this.#input.evaluation.strain?.channel === 'travel';
    return fromTravel && needsExtensometer(symbol) ? null : ttoTermOf(symbol);
  }

  #id(name: string): string {
    return `${this.#base}${name}`;
  }

  #ref(name: string): { '@id': string } {
    return { '@id': this.#id(name) };
  }
}

const type = (term: TtoTerm): string => `tto:${term.id}`;

const kebab = (name: string): string => name.replace(/[A-Z]/g, (letter) => `-${letter.toLowerCase()}`);
