/**
 * Processes of their own that stand for the floor. Arguments: kind, path, bytes after which it ends (0: never).
 * `split`: serialport, its readline parser, a split and two parseFloats a line, nothing stored.
 * `read`: nothing but reads into one buffer; prints how long they took from the first byte to the last.
 */
import { constants, openSync, readSync } from 'node:fs';
import { ReadlineParser } from '@serialport/parser-readline';
import { SerialPort } from 'serialport';

const [kind = '', path = '', bytesText = '0'] = process.argv.slice(2);
const wanted = Number(bytesText);

if (kind === 'split') {
  const port = new SerialPort({ path, baudRate: 921_600 });
  let total = 0;
  port.pipe(new ReadlineParser({ delimiter: '\r\n' })).on('data', (line: string) => {
    const fields = line.split(',');
    for (const field of fields) total += parseFloat(field);
  });
  port.on('open', () => process.stdout.write('ready\n'));
  process.on('exit', () => process.stdout.write(`${total}\n`));
} else {
  const file = openSync(path, constants.O_RDONLY | constants.O_NOCTTY);
  process.stdout.write('ready\n');
  const buffer = Buffer.alloc(65_536);
  let held = 0;
  let firstUs = 0;
  while (held < wanted) {
    held += readSync(file, buffer, 0, buffer.length, null);
    if (firstUs === 0) firstUs = Number(process.hrtime.bigint() / 1000n);
  }
  process.stdout.write(
    `${JSON.stringify({ ms: (Number(process.hrtime.bigint() / 1000n) - firstUs) / 1000 })}\n`,
  );
  process.exit(0);
}
