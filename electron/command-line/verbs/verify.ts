/** `gaugemark verify`: errors and class of a force-measuring system or an extensometer from a worksheet, without an archive. */
import { takeArguments } from '../arguments.ts';
import { EXIT_DONE, type Verb } from '../verb.ts';
import { verifiedWorksheet } from '../verified-worksheet.ts';
import { EXTENSION_EXAMPLE, WORKSHEET_EXAMPLE } from '../worksheet-file.ts';

const OPTIONS = { working: { type: 'boolean' }, json: { type: 'boolean' } } as const;

export const verb: Verb = {
  name: 'verify',
  summary:
    'errors and class of a force-measuring system or an extensometer, from what was applied and indicated',
  usage: `gaugemark verify FILE.json [--working] [--json]

  Errors, repeatability, reversibility, resolution and zero at every force of a verification, the class by ISO 7500-1,
  the range within ASTM E4 and the lowest force that the resolution allows. The limits of ISO 7500-1 are from memory:
  check them against your own copy. Nothing is kept; "gaugemark instruments verify" keeps it with an instrument.

  --working   every figure with its formula and the numbers put in
  --json      one JSON document on stdout: {"verification":{…}}

  The file holds the forces applied by the reference and what was indicated, one figure of each run. "applied" may be
  a list as well (the reference read in each run), "indicated" one figure for all runs; "capacity" is the upper end of the
  range where it is more than the largest force, "zeros" what was indicated after each run without force:

${WORKSHEET_EXAMPLE}

  A file with a "gaugeLength" is that of an extensometer: bias at every displacement and error of the gauge length, the
  class by ISO 9513 and by ASTM E83 (limits of both from memory):

${EXTENSION_EXAMPLE}`,
  run: (args, io) => {
    const given = takeArguments(args, OPTIONS, ['FILE.json'], 'verify');
    const { verification, text } = verifiedWorksheet(given.positionals[0] ?? '');
    io.out(given.has('json') ? JSON.stringify({ verification }) : text({ working: given.has('working') }));
    return Promise.resolve(EXIT_DONE);
  },
};
