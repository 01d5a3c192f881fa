/** The command line: `npm run --silent gaugemark -- <verb> …`. Chooses the verb, answers faults in one sentence. */
import { nearName } from '../../core/near-name.ts';
import { terminalText } from './terminal-text.ts';
import {
  EXIT_DONE,
  EXIT_INPUT_WRONG,
  EXIT_JOB_FAILED,
  type ExitCode,
  InputError,
  JobError,
  type Verb,
  type VerbIo,
} from './verb.ts';
import { verb as archive } from './verbs/archive.ts';
import { verb as certificate } from './verbs/certificate.ts';
import { verb as evaluate } from './verbs/evaluate.ts';
import { verb as instruments } from './verbs/instruments.ts';
import { verb as judge } from './verbs/judge.ts';
import { verb as laboratory } from './verbs/laboratory.ts';
import { verb as learn } from './verbs/learn.ts';
import { verb as people } from './verbs/people.ts';
import { verb as pull } from './verbs/pull.ts';
import { verb as rules } from './verbs/rules.ts';
import { verb as selfCheck } from './verbs/self-check.ts';
import { verb as set } from './verbs/set.ts';
import { verb as simulate } from './verbs/simulate.ts';
import { verb as verify } from './verbs/verify.ts';

const VERBS: readonly Verb[] = [
  archive,
  certificate,
  evaluate,
  instruments,
  judge,
  laboratory,
  learn,
  people,
  pull,
  rules,
  selfCheck,
  set,
  simulate,
  verify,
];

export async function runCommandLine(argv: readonly string[], io: VerbIo): Promise<ExitCode> {
  const [name, ...args] = argv;
  if (name === undefined || name === 'help' || name === '--help') {
    const [about, part] = args.filter((arg) => !arg.startsWith('-'));
    const verb = VERBS.find((v) => v.name === about);
    if (verb === undefined && about !== undefined) return answerFault(verbUnknown(about), args, io);
    if (verb === undefined) return answer(listOfVerbs(), io);
    const told = part === undefined ? verb.usage : usageOf(verb, part);
    return told === undefined ? answerFault(partUnknown(verb, part ?? ''), args, io) : answer(told, io);
  }
  const verb = VERBS.find((v) => v.name === name);
  if (verb === undefined) return answerFault(verbUnknown(name), args, io);
  if (args.includes('--help')) return answer(usageOf(verb, args[0] ?? '') ?? verb.usage, io);
  try {
    return await verb.run(args, io);
  } catch (error) {
    return answerFault(error, args, io);
  }
}

function answer(text: string, io: VerbIo): ExitCode {
  io.out(text);
  return EXIT_DONE;
}

/** All that a verb says is about each word behind it where it has no verbs of its own. */
const usageOf = ({ usage, parts }: Verb, part: string): string | undefined =>
  parts === undefined ? usage : Object.entries(parts).find(([name]) => name === part)?.[1];

const verbUnknown = (name: string): InputError =>
  unknown(
    name,
    VERBS.map((v) => v.name),
  );

const partUnknown = ({ name, parts = {} }: Verb, part: string): InputError =>
  unknown(part, Object.keys(parts), `${name} `);

function unknown(name: string, names: readonly string[], of = ''): InputError {
  const near = nearName(name, names);
  return new InputError(
    'verb-unknown',
    `There is no verb "${of}${name.slice(0, 40)}"${near === null ? '' : `; did you mean ${of}${near}?`}${near === null ? '; the' : ' The'} verbs are ${names.join(', ')}.`,
  );
}

/** Operating faults become a sentence and an exit code; anything else is a bug and keeps its stack. */
function answerFault(error: unknown, args: readonly string[], io: VerbIo): ExitCode {
  if (!(error instanceof InputError) && !(error instanceof JobError)) throw error;
  if (args.includes('--json')) {
    const field = error instanceof InputError ? error.field : undefined;
    io.out(
      JSON.stringify({
        error: {
          code: error.code,
          sentence: error.message,
          ...(field === undefined ? {} : { field }),
          ...(error.detail === undefined ? {} : { detail: error.detail }),
        },
      }),
    );
  }
  io.err(error.message);
  if (error.detail !== undefined) io.err(`  detail: ${error.detail}`);
  return error instanceof InputError ? EXIT_INPUT_WRONG : EXIT_JOB_FAILED;
}

function listOfVerbs(): string {
  const width = Math.max(0, ...VERBS.map((v) => v.name.length));
  return [
    'gaugemark <verb> [options]   (gaugemark help <verb> tells more; --json prints one JSON document)',
    '',
    ...VERBS.map((v) => `  ${v.name.padEnd(width)}  ${v.summary}`),
  ].join('\n');
}

if (import.meta.main) {
  // npm runs scripts in the project's folder; a relative path means the folder in which the person typed it.
  const typedIn = process.env.INIT_CWD;
  if (process.env.npm_lifecycle_event === 'gaugemark' && typedIn !== undefined) process.chdir(typedIn);
  // Whoever read along may have gone (`| head`); a pull that is being recorded goes on all the same.
  for (const stream of [process.stdout, process.stderr])
    stream.on('error', (error: NodeJS.ErrnoException) => {
      if (error.code !== 'EPIPE') throw error;
    });
  const io: VerbIo = {
    out: (text) => process.stdout.write(`${terminalText(text)}\n`),
    err: (text) => process.stderr.write(`${terminalText(text)}\n`),
  };
  process.exitCode = await runCommandLine(process.argv.slice(2), io);
}
