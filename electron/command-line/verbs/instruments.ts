/** `gaugemark instruments list|show|save|calibrate|retire|verify`: the register of frames and instruments. */
import { resolve } from 'node:path';
import { NO_LABORATORY } from '../../../core/certificate/compose-certificate.ts';
import { sheetOf } from '../../../core/certificate/paper/paper-style.ts';
import { verificationPaper } from '../../../core/certificate/paper/verification-page.ts';
import type { InstrumentLine } from '../../../core/contract/instrument-requests.ts';
import { holdsWorksheet } from '../../../core/instruments/calibration.ts';
import { momentText } from '../../../core/exchange/export/moment-text.ts';
import { INSTRUMENT_KINDS } from '../../../core/instruments/instrument.ts';
import { utcOffsetMinutes } from '../../recorder/utc-offset.ts';
import { type VerbArguments, oneOf, takeArguments } from '../arguments.ts';
import {
  CALIBRATION_OPTIONS,
  INSTRUMENT_OPTIONS,
  calibrationFrom,
  instrumentFrom,
} from '../instrument-arguments.ts';
import { historyText, registerText } from '../instrument-text.ts';
import { writeNewFile } from '../new-file.ts';
import { paperWords } from '../../../core/words/load-paper-words.ts';
import { PAPER_OPTIONS, paperFrom } from '../paper-arguments.ts';
import { paperFonts } from '../paper-fonts.ts';
import { printPdf } from '../print-pdf.ts';
import { type RecorderAccess, existingArchive, recorderAccess } from '../recorder-access.ts';
import { rowNumber } from '../row-number.ts';
import { SAID_OPTIONS, neededText, saidBy, saidWhy } from '../said.ts';
import { EXIT_DONE, type ExitCode, InputError, type Verb, type VerbIo } from '../verb.ts';
import { verifiedWorksheet } from '../verified-worksheet.ts';

const ACTIONS = ['list', 'show', 'save', 'calibrate', 'retire', 'verify'] as const;
type Action = (typeof ACTIONS)[number];

const OPTIONS = {
  ...INSTRUMENT_OPTIONS,
  ...CALIBRATION_OPTIONS,
  ...SAID_OPTIONS,
  archive: { type: 'string' },
  instrument: { type: 'string' },
  correct: { type: 'string' },
  'with-table': { type: 'boolean' },
  'table-out': { type: 'string' },
  'pdf-out': { type: 'string' },
  calibration: { type: 'string' },
  ...PAPER_OPTIONS,
  working: { type: 'boolean' },
  json: { type: 'boolean' },
} as const;

/** Arguments behind the action; those in brackets can be left out. */
const POSITIONALS: Readonly<Record<Action, readonly string[]>> = {
  list: [],
  show: ['ID'],
  save: [],
  calibrate: ['ID'],
  retire: ['ID'],
  verify: ['ID', 'WORKSHEET.json'],
};

const usage = `gaugemark instruments list [--archive FILE] [--json]
gaugemark instruments show ID [--archive FILE] [--json]
gaugemark instruments save [FILE.json] [--kind WORD --name TEXT …] [--archive FILE]
gaugemark instruments save [FILE.json] --instrument ID --reason TEXT […] [--archive FILE]
gaugemark instruments calibrate ID [FILE.json] --certificate NUMBER --date DAY --due DAY […] [--archive FILE]
gaugemark instruments verify ID WORKSHEET.json [--certificate NUMBER --date DAY --due DAY] [--archive FILE]
gaugemark instruments retire ID --reason TEXT [--archive FILE]

  Frames, force channels, extensometers and callipers with their calibrations. A pull that names them
  ("gaugemark pull --instrument ID") keeps certificate and due date as they stood at its start. Nothing is ever deleted:
  a correction stands beside what it corrects, with its reason.

  --kind WORD           ${INSTRUMENT_KINDS.join(', ')}
  --name TEXT           what it is called here, as on its label
  --serial TEXT         its serial number
  --description TEXT    what it is: "load cell on the crosshead", "clip-on, gauge length 50 mm"
  --from Q --to Q       range of the instrument, or of a calibration, with unit: --to "200 kN" (from 0 where --from is absent)
  --resolution Q        one digit of its display, "0.01 kN"
  --class TEXT          as its maker or its certificate states it
  --certificate NUMBER  of the calibration
  --date DAY            of the calibration, year-month-day
  --due DAY             the last day on which it counts
  --by TEXT             who calibrated
  --table FILE.csv      correction table of the certificate: two columns like shown_kN,actual_kN
  --with-table          verify: keeps the means of the worksheet as correction table
  --table-out FILE.csv  show: writes the correction table that counts now, as "archive evaluate --calibration" takes it
  --pdf-out FILE.pdf    show: writes the certificate of a verification that was kept; --calibration ID names which (default
                        the newest that stands), --paper A4|Letter the paper (default A4),
                        --language en|es what the program writes on it (default en)
  --correct ID          the calibration that was entered wrongly and is superseded; needs --reason
  --instrument ID       save: the instrument that is corrected; what isn't named stays; needs --reason
  --operator NAME       who enters it
  --working             verify: every figure with its formula
  --json                one JSON document on stdout

  "verify" works a worksheet of forces or of an extensometer out ("gaugemark help verify" tells how each is written);
  with --certificate it is kept as a calibration of the instrument, with the class and the range that it gives.

  gaugemark instruments save --kind force-channel --name LC-20 --to "200 kN" --archive shop.gaugemark
  gaugemark instruments calibrate 1 --certificate K-2026-017 --date 2026-01-31 --due 2027-01-31 --archive shop.gaugemark`;

export const verb: Verb = {
  name: 'instruments',
  summary: 'frames, force channels, extensometers, callipers: calibrations, due dates, verification',
  usage,
  run: async (args, io) => {
    const action = oneOf('action', args[0], ACTIONS) ?? 'list';
    const rest = args.slice(1);
    const order = ordered(action, rest);
    const access = await recorderAccess({
      archive: action === 'save' ? order.given.text('archive') : existingArchive(order.given.text('archive')),
      toRecord: action !== 'list' && action !== 'show' && !(action === 'verify' && !order.keeps),
      note: io.err,
    });
    try {
      return await done(access, order, io);
    } finally {
      await access.end();
    }
  },
};

interface Order {
  readonly action: Action;
  readonly given: VerbArguments;
  readonly id: number | null;
  /** File behind the other arguments, where one is given. */
  readonly file: string | undefined;
  /** Whether a worksheet is kept. */
  readonly keeps: boolean;
}

/** What is wrong with the arguments is told before the archive is opened. */
function ordered(action: Action, args: readonly string[]): Order {
  const needed = POSITIONALS[action];
  const mayHaveFile = action === 'save' || action === 'calibrate';
  const given = takeWithFile(args, needed, mayHaveFile);
  const id = needed.includes('ID') ? rowNumber(given.positionals[0] ?? '', 'instrument', 'instrument') : null;
  const order = { action, given, id, file: given.positionals[action === 'save' ? 0 : 1] };
  if (action === 'retire') neededText(given, 'reason', 'say in a few words why it goes out of use');
  if ((given.text('correct') ?? given.text('instrument')) !== undefined)
    neededText(given, 'reason', 'a correction needs its reason');
  if (action === 'calibrate') calibrationFrom(given, order.file);
  if (action === 'save' && given.text('instrument') === undefined) instrumentFrom(given, order.file, null);
  paperFrom(given, 'pdf-out');
  if (action === 'verify') verifiedWorksheet(order.file ?? '');
  return { ...order, keeps: action === 'verify' && given.text('certificate') !== undefined };
}

/** One argument more may be a file. */
function takeWithFile(
  args: readonly string[],
  needed: readonly string[],
  mayHaveFile: boolean,
): VerbArguments {
  if (!mayHaveFile) return takeArguments(args, OPTIONS, needed, 'instruments');
  try {
    return takeArguments(args, OPTIONS, [...needed, 'FILE.json'], 'instruments');
  } catch (error) {
    if (!(error instanceof InputError) || error.code !== 'argument-missing') throw error;
    return takeArguments(args, OPTIONS, needed, 'instruments');
  }
}

async function done(access: RecorderAccess, order: Order, io: VerbIo): Promise<ExitCode> {
  switch (order.action) {
    case 'list':
      break;
    case 'show':
      await writeTable(access, order, io);
      await writePdf(access, order, io);
      await tellOne(access, order, io);
      return EXIT_DONE;
    case 'save':
      return tellAfter(access, order, io, await saved(access, order));
    case 'retire':
      return tellAfter(access, order, io, await retired(access, order));
    case 'calibrate': {
      const form = calibrationFrom(order.given, order.file);
      await access.ask('instrument.calibrate', { ...calibrating(order), form });
      await tellOne(access, order, io);
      return EXIT_DONE;
    }
    case 'verify':
      return verified(access, order, io);
  }
  const reply = await access.ask('instrument.list', {});
  io.out(order.given.has('json') ? JSON.stringify(reply) : registerText(reply.instruments));
  return EXIT_DONE;
}

const asked = ({ id }: Order): { instrumentId: number } => ({ instrumentId: id ?? 0 });

function calibrating(order: Order) {
  const corrected = order.given.text('correct');
  return {
    ...asked(order),
    ...(corrected === undefined ? {} : { supersedes: rowNumber(corrected, 'instrument', 'correct') }),
    ...saidWhy(order.given),
    ...saidBy(order.given),
  };
}

async function tellOne(access: RecorderAccess, order: Order, io: VerbIo): Promise<void> {
  const reply = await access.ask('instrument.get', asked(order));
  io.out(order.given.has('json') ? JSON.stringify(reply) : historyText(reply));
}

/** `--table-out FILE`: never over a file that is there. */
async function writeTable(access: RecorderAccess, order: Order, io: VerbIo): Promise<void> {
  const path = order.given.text('table-out');
  if (path === undefined) return;
  const { form, calibration } = await lineOf(access, asked(order).instrumentId);
  const correction = calibration?.form.correction;
  if (correction === undefined)
    throw new InputError(
      'no-table',
      `The calibration of ${form.name} that counts now has no correction table, so there is nothing to write.`,
      'table-out',
    );
  const { unit, points } = correction;
  const lines = [
    `# ${form.name}, certificate ${calibration?.form.certificateNumber ?? ''}`.replace(/[\r\n]/g, ' '),
    `shown_${unit},actual_${unit}`,
    ...points.map(({ shown, actual }) => `${shown.replace(',', '.')},${actual.replace(',', '.')}`),
  ];
  writeNewFile(path, `${lines.join('\n')}\n`, 'table-out');
  io.err(`The correction table is written to ${path}.`);
}

/** `--pdf-out FILE`: from the archive alone. */
async function writePdf(access: RecorderAccess, order: Order, io: VerbIo): Promise<void> {
  const out = order.given.text('pdf-out');
  if (out === undefined) return;
  const { paper, language } = paperFrom(order.given, 'pdf-out');
  const words = await paperWords(language);
  const asksFor = order.given.text('calibration');
  const id = asksFor === undefined ? null : rowNumber(asksFor, 'instrument', 'calibration');
  const { instrument, calibrations } = await access.ask('instrument.get', asked(order));
  const found = calibrations.findLast(({ calibrationId, supersededBy, form }) =>
    id === null ? supersededBy === null && holdsWorksheet(form) : calibrationId === id,
  );
  const { programVersion } = await access.ask('program.info', {});
  const now = Date.now();
  const page =
    found === undefined
      ? null
      : verificationPaper(
          {
            laboratory: (await access.ask('laboratory.get', {})) ?? NO_LABORATORY,
            instrument: instrument.form,
            calibration: found.form,
            supersededBy: found.supersededBy,
            programVersion,
            made: momentText(now, utcOffsetMinutes(now)),
          },
          { paper, fonts: paperFonts(), words },
        );
  if (page === null)
    throw new InputError(
      'no-worksheet',
      `${instrument.form.name} has no such calibration with a worksheet; "gaugemark instruments verify" keeps one.`,
      'calibration',
    );
  await printPdf({
    ...page,
    sheet: sheetOf(paper),
    out: resolve(out),
    what: 'certificate',
    option: 'pdf-out',
    say: io.err,
  });
  io.err(`The certificate of verification is written to ${out}.`);
}

async function tellAfter(access: RecorderAccess, order: Order, io: VerbIo, id: number): Promise<ExitCode> {
  await tellOne(access, { ...order, id }, io);
  return EXIT_DONE;
}

async function lineOf(access: RecorderAccess, instrumentId: number): Promise<InstrumentLine> {
  return (await access.ask('instrument.get', { instrumentId })).instrument;
}

async function saved(access: RecorderAccess, { given, file }: Order): Promise<number> {
  const corrected = given.text('instrument');
  if (corrected === undefined)
    return (
      await access.ask('instrument.save', { form: instrumentFrom(given, file, null), ...saidBy(given) })
    ).instrumentId;
  const before = await lineOf(access, rowNumber(corrected, 'instrument', 'instrument'));
  const { instrumentId } = await access.ask('instrument.save', {
    form: instrumentFrom(given, file, before.form),
    supersedes: before.statementId,
    retired: before.retired,
    ...saidWhy(given),
    ...saidBy(given),
  });
  return instrumentId;
}

async function retired(access: RecorderAccess, order: Order): Promise<number> {
  const before = await lineOf(access, asked(order).instrumentId);
  const { instrumentId } = await access.ask('instrument.save', {
    form: before.form,
    supersedes: before.statementId,
    retired: true,
    ...saidWhy(order.given),
    ...saidBy(order.given),
  });
  return instrumentId;
}

async function verified(access: RecorderAccess, order: Order, io: VerbIo): Promise<ExitCode> {
  const { given } = order;
  const { verification, text, calibration, correction } = verifiedWorksheet(order.file ?? '');
  const { form } = await lineOf(access, asked(order).instrumentId);
  if (correction === null && given.has('with-table'))
    io.err(
      'The means of what was indicated do not grow from step to step, so they make no correction table and none is kept; look at the worksheet.',
    );
  if (order.keeps) {
    await access.ask('instrument.calibrate', {
      ...calibrating(order),
      form: calibrationFrom(given, undefined, {
        ...calibration,
        ...(correction === null || !given.has('with-table') ? {} : { correction }),
      }),
    });
  }
  if (given.has('json')) io.out(JSON.stringify({ kept: order.keeps, verification }));
  else
    io.out(
      `${form.name}\n\n${text({ working: given.has('working') })}\n\n${order.keeps ? 'Kept as a calibration of this instrument.' : 'Nothing was kept; with --certificate, --date and --due it is kept as a calibration.'}`,
    );
  return EXIT_DONE;
}
