/** Loaded into a recorder before its own program: on SIGUSR2 the handler of the next line throws, as a bug there would. */
import { LineParser } from '../../../drivers/lines/line-parser.ts';

process.on('SIGUSR2', () => {
  LineParser.prototype.push = () => {
    throw new Error('a fault in a data handler, put there by a test');
  };
  // A line can overtake the signal: the test sends it only after this.
  process.stderr.write('the next line will be thrown at\n');
});
