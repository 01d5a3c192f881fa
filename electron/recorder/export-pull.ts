/** One pull as a file for elsewhere; the end of the name says in which form. */
import type { PullForm } from '../../core/contract/archive-requests.ts';
import type { ReplyOf, RequestOf } from '../../core/contract/index.ts';
import type { CsvFormName } from '../../core/exchange/export/csv-form.ts';
import {
  type KeptEvaluationDocument,
  evaluationDocument,
} from '../../core/exchange/export/evaluation-document.ts';
import type { DocumentVerdict } from '../../core/exchange/export/document-statements.ts';
import { pullJsonLd } from '../../core/exchange/export/pull-json-ld.ts';
import type { Evaluation } from '../../core/results/evaluation.ts';
import { readSpecimen } from '../../core/specimen/read-specimen.ts';
import { writeWholeText } from '../exports/whole-text.ts';
import { judgedSet } from './judged-set.ts';
import { evaluatePull } from './kept-evaluations.ts';
import type { Recorder } from './recorder.ts';
import { RequestRefused } from './request-refused.ts';

/** Ends of names that say a form in which readings are not written: CSV under such a name would mislead. */
const NO_FORM = /\.(?:png|jpe?g|gif|svg|pdf|xlsx?|ods|gaugemark|db|sqlite|zip)$/i;

const ENDS = { json: '.json', 'json-ld': '.jsonld' } as const;
const isCsv = (form: PullForm): form is CsvFormName =>
  form !== 'json' && form !== 'json-ld' && form !== 'original';

/**
 * Without `asked` the end of the name says it: `.json` everything as one document, `.jsonld` linked data in terms of the
 * Tensile Test Ontology, else CSV for machines. The file that was imported may be called anything. Throws a RequestRefused where the name says another form.
 */
export function formOfExport(path: string, asked?: PullForm): PullForm {
  if (asked === 'original') return asked;
  const [end] = NO_FORM.exec(path) ?? [];
  if (end !== undefined)
    throw new RequestRefused(
      'export-form-unknown',
      `A pull is not written as ${end}; end the name with .csv, .json or .jsonld. Pictures are drawn of its curve, and a table of results is written of what a search finds.`,
      'to',
    );
  const said = /\.jsonld$/i.test(path) ? 'json-ld' : /\.json$/i.test(path) ? 'json' : null;
  const form = asked ?? said ?? 'plain';
  if ((isCsv(form) ? null : form) !== said)
    throw new RequestRefused(
      'export-form-contrary',
      isCsv(form)
        ? `The form ${form} is CSV, and the name ends as if it were not; end it with .csv.`
        : `The form ${form} needs a name that ends with ${ENDS[form]}.`,
      'to',
    );
  return form;
}

/** Throws where the file exists or can't be written. */
export async function exportPull(
  recorder: Recorder,
  { pullId, to, form: asked }: RequestOf<'archive.export'>,
): Promise<ReplyOf<'archive.export'>> {
  const form = formOfExport(to, asked);
  if (form === 'original') return recorder.archive.callLong('exportOriginal', pullId, to);
  if (isCsv(form)) return recorder.archive.callLong('exportCsv', { pullId, to, form });
  if (form === 'json')
    return recorder.archive.callLong('exportJson', pullId, to, {
      evaluations: await evaluationsOf(recorder, pullId),
      verdicts: await verdictsOf(recorder, pullId),
    });
  return exportJsonLd(recorder, pullId, to);
}

/** Every evaluation that was kept; the one that stands, or the pull as recorded, with its results and working. */
async function evaluationsOf(recorder: Recorder, pullId: number): Promise<KeptEvaluationDocument[]> {
  const { state } = await recorder.archive.call('getPull', pullId);
  const history = await recorder.archive.call('evaluationHistory', pullId);
  const now = state === 'ended' ? documentOf(await evaluatePull(recorder, { pullId })) : null;
  const before = history.map((one, place) => ({
    kept: {
      evaluationId: one.evaluationId,
      supersedes: one.supersedes,
      specimenId: one.specimenId,
      keptWallMs: one.keptWallMs,
      by: one.by,
      reason: one.reason,
      programVersion: one.programVersion,
      methodVersion: one.methodVersion,
      values: one.values,
      sources: one.sources,
    },
    options: { ...one.options },
    evaluation: place === history.length - 1 ? now : null,
  }));
  return before.length > 0 ? before : [{ kept: null, options: {}, evaluation: now }];
}

/** In each set that its specimen is in, as it is judged now; only the pull that counts of a specimen is. */
async function verdictsOf(recorder: Recorder, pullId: number): Promise<Map<number, DocumentVerdict>> {
  const verdicts = new Map<number, DocumentVerdict>();
  for (const { setId, setMemberId } of await recorder.archive.call('membershipsOf', { pullId })) {
    const { members } = await judgedSet(recorder, setId);
    const judged = members.find(
      ({ member, pull }) => member.setMemberId === setMemberId && pull?.pullId === pullId,
    )?.verdict;
    if (judged !== undefined && judged !== null)
      verdicts.set(setMemberId, {
        outcome: judged.outcome,
        outcomeOfRules: judged.verdict.outcome,
        questionable: judged.verdict.validity.state === 'questionable',
        sentence: judged.sentence,
      });
  }
  return verdicts;
}

/** As JSON says it: what a document can't hold is found here, and not by its reader. */
const documentOf = (evaluation: Evaluation) =>
  evaluationDocument.parse(JSON.parse(JSON.stringify(evaluation)));

async function exportJsonLd(
  recorder: Recorder,
  pullId: number,
  to: string,
): Promise<ReplyOf<'archive.export'>> {
  const pull = await recorder.archive.call('getPull', pullId);
  if (pull.state !== 'ended')
    throw new RequestRefused(
      'pull-open',
      `Pull ${String(pullId)} is not closed yet; close its record, then export it.`,
      'pullId',
    );
  const { specimen: file } = await recorder.archive.call('specimenOfPull', pullId);
  const read = readSpecimen(file);
  if (!read.ok) throw new Error(`the specimen of pull ${String(pullId)} can't be read any more`);
  const document = pullJsonLd({
    pull,
    specimen: read.specimen,
    evaluation: await evaluatePull(recorder, { pullId }),
    // Numbers of pulls begin anew in every archive.
    baseIri: `urn:gaugemark:archive:${await recorder.archive.call('identity')}:pull:${String(pullId)}:`,
  });
  return {
    ...writeWholeText([`${JSON.stringify(document, null, 1)}\n`], to),
    readingCount: pull.readingCount,
    parts: [],
    remark: null,
  };
}
