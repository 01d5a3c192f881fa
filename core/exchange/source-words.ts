/** Where the readings of a pull come from, in the words of an exported file, and read back from them. */
import type { ImportedReadings, PullSource } from '../contract/source.ts';
import { TYPED_WORDS } from '../pull/typed-pull.ts';

const BEGINS: Readonly<Record<ImportedReadings, string>> = {
  simulated: 'simulated frame',
  replay: 'replay of recorded bytes',
};
const FILE_SAYS = 'whose bytes are kept; that file says: ';

export function sourceWords(source: PullSource): string {
  switch (source.kind) {
    case 'simulated':
      return `${BEGINS.simulated}, scenario ${source.scenario}: no specimen was pulled`;
    case 'typed':
      return TYPED_WORDS;
    case 'imported':
      return source.readings === undefined
        ? `imported from the file ${source.file}, whose bytes are kept`
        : `imported from the file ${source.file}, ${FILE_SAYS}${BEGINS[source.readings]}`;
    case 'serial':
      return `serial port ${source.path}`;
    case 'replay':
      return `${BEGINS.replay}, ${source.file}`;
    case 'tcp':
      return `TCP ${source.host} port ${String(source.port)}`;
    case 'modbus-tcp':
      return `Modbus TCP ${source.host} port ${String(source.port)}, unit ${String(source.unitId)}`;
    case 'modbus-rtu':
      return `Modbus RTU ${source.path}, unit ${String(source.unitId)}`;
  }
}

/** What a spreadsheet program puts around a remark when it saves the file again. */
const REMARK = /^[\s"\uFEFF]*#\s*(?:source|second instrument):\s*(.*?)[\s",;]*$/;

/** From lines above a table; null where none says that no specimen gave the readings. */
export function readingsSaidIn(lines: readonly string[]): ImportedReadings | null {
  for (const line of lines) {
    const words = REMARK.exec(line)?.[1];
    if (words === undefined) continue;
    const before = words.startsWith('imported from the file ') ? words.lastIndexOf(FILE_SAYS) : -1;
    const said = before === -1 ? `${words},` : `${words.slice(before + FILE_SAYS.length)},`;
    if (said.startsWith(`${BEGINS.simulated},`)) return 'simulated';
    if (said.startsWith(`${BEGINS.replay},`)) return 'replay';
  }
  return null;
}
