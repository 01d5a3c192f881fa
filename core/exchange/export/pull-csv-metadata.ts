/**
 * The side file of a pull's CSV: what each column is, for machines. W3C "CSV on the Web" (Metadata Vocabulary for
 * Tabular Data, 2015), written beside it as "<name>.csv-metadata.json".
 */
import type { KeptPull } from '../../contract/pull-requests.ts';
import { momentText } from './moment-text.ts';
import { channelColumnNames } from './pull-csv-columns.ts';

export interface CsvMetadata {
  readonly '@context': readonly ['http://www.w3.org/ns/csvw', { readonly '@language': 'en' }];
  readonly url: string;
  readonly dialect: Readonly<Record<string, unknown>>;
  readonly tableSchema: { readonly columns: readonly CsvColumnMetadata[] };
  readonly [property: `dc:${string}`]: unknown;
}

export interface CsvColumnMetadata {
  readonly name: string;
  readonly titles: string;
  readonly datatype: 'integer' | 'decimal' | 'double' | 'string';
  readonly required: boolean;
  readonly 'dc:description': string;
}

/** For the plain form only: a spreadsheet form is for people. */
export function pullCsvMetadata(pull: KeptPull, fileName: string): CsvMetadata {
  return {
    '@context': ['http://www.w3.org/ns/csvw', { '@language': 'en' }],
    url: fileName,
    'dc:title': `Pull ${String(pull.pullId)} of ${pull.specimenName}`,
    'dc:created': momentText(pull.startedWallMs, pull.startedUtcOffsetMinutes),
    'dc:creator': `Gaugemark ${pull.programVersion}`,
    dialect: {
      commentPrefix: '#',
      delimiter: ',',
      header: true,
      encoding: 'utf-8',
      lineTerminators: ['\r\n'],
    },
    tableSchema: { columns: columnsOf(pull) },
  };
}

function columnsOf(pull: KeptPull): CsvColumnMetadata[] {
  const column = (
    titles: string,
    datatype: CsvColumnMetadata['datatype'],
    required: boolean,
    description: string,
  ): CsvColumnMetadata => ({
    name: titles.replace(/[^A-Za-z0-9]+/g, '_'),
    titles,
    datatype,
    required,
    'dc:description': description,
  });
  const names = channelColumnNames(pull);
  return [
    column('reading', 'integer', true, 'number of the reading, from 0'),
    column('time_s', 'decimal', true, 'seconds since the record began, on a clock that is never set'),
    ...names.map(({ converted, key }, i) =>
      column(
        converted,
        'double',
        false,
        `channel ${key} in ${pull.channels[i]?.coreUnit ?? ''}, converted with scale, offset, sign and zero; blank where there was no value`,
      ),
    ),
    ...names.flatMap(({ shown, shownUnit, status, key }, i) => [
      column(
        shown,
        'decimal',
        false,
        `digits of channel ${key} as the readout showed them${shownUnit === null ? `, in ${pull.channels[i]?.unit ?? ''}` : ''}`,
      ),
      ...(shownUnit === null
        ? []
        : [column(shownUnit, 'string', true, `unit in which channel ${key} was shown`)]),
      column(status, 'string', true, `how the field of channel ${key} came out`),
    ]),
    column('status', 'string', true, 'how the line as a whole came out'),
  ];
}
