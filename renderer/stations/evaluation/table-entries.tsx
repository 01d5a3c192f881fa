/** Tables that correct a channel: which file each is from, another file in its place, or none. */
import { Button } from '../../design/button.tsx';
import { FaultBlock } from '../../design/field.tsx';
import { errand } from '../../store/errand.ts';
import { request } from '../../store/session-store.ts';
import { words } from '../../words/words.ts';
import { BlankRunOfPull } from './blank-run-of-pull.tsx';
import type { EvaluationDraft, TableEntry } from './evaluation-draft.ts';
import { type RegisteredEntry, RegisteredTables, tableOfInstrument } from './registered-tables.tsx';
import { SOURCE_OF, tableFromText } from './table-file.ts';

const opening = errand();

export interface TableEntriesProps {
  readonly draft: EvaluationDraft;
  readonly entries: readonly TableEntry[];
  readonly onChange: (draft: EvaluationDraft) => void;
}

export function TableEntries({ draft, entries, onChange }: TableEntriesProps) {
  const text = words.value.evaluation;
  const without = (entry: TableEntry): EvaluationDraft => ({
    ...draft,
    tables: Object.fromEntries(Object.entries(draft.tables).filter(([name]) => name !== entry)),
    sources: draft.sources.filter(({ what }) => what !== SOURCE_OF[entry]),
  });
  const take = async (entry: TableEntry) => {
    const answer = await opening.run(() => request('window.open-text', { kind: 'curve' }));
    const file = answer?.file ?? null;
    if (file === null) return;
    const outcome = await tableFromText(entry, file, text.wrongQuantity);
    if (!outcome.ok) {
      opening.fault.value = { code: 'table-wrong', sentence: outcome.sentence };
      return;
    }
    const rest = without(entry);
    onChange({
      ...rest,
      tables: { ...rest.tables, ...outcome.table },
      sources: [...rest.sources, outcome.source],
    });
  };
  const takeOf = async (entry: RegisteredEntry, instrumentId: number) => {
    const taken = await tableOfInstrument(entry, instrumentId);
    if (taken === null) return;
    const rest = without(entry);
    onChange({
      ...rest,
      tables: { ...rest.tables, ...taken.table },
      sources: [...rest.sources, taken.source],
    });
  };
  const takePull = async (pullId: number) => {
    const taken = await opening.run(() => request('evaluation.blank-run', { pullId }));
    if (taken === null) return;
    const { points, name, sha256 } = taken;
    const rest = without('frameCompliance');
    onChange({
      ...rest,
      tables: { ...rest.tables, frameCompliance: points },
      sources: [...rest.sources, { what: SOURCE_OF.frameCompliance, name, sha256 }],
    });
  };
  return (
    <>
      <dl class="evaluation-tables">
        {entries.map((entry) => {
          const table = draft.tables[entry];
          const from = draft.sources.find(({ what }) => what === SOURCE_OF[entry]);
          return (
            <div key={entry} data-table={entry}>
              <dt>{text.tables[entry]}</dt>
              <dd>
                <span>
                  {table === undefined
                    ? text.noTable
                    : text.tablePoints(String(table.length), from?.name ?? text.earlierFile)}
                </span>
                <Button
                  kind="compact"
                  name={text.openFileFor(text.tables[entry])}
                  onPress={() => void take(entry)}
                >
                  {text.openFile}
                </Button>
                {entry === 'frameCompliance' ? (
                  <BlankRunOfPull onTake={(pullId) => void takePull(pullId)} />
                ) : (
                  <RegisteredTables entry={entry} onTake={(id) => void takeOf(entry, id)} />
                )}
                {table === undefined ? null : (
                  <Button
                    kind="compact"
                    name={text.dropTableFor(text.tables[entry])}
                    onPress={() => onChange(without(entry))}
                  >
                    {text.dropTable}
                  </Button>
                )}
              </dd>
            </div>
          );
        })}
      </dl>
      <FaultBlock fault={opening.fault.value} />
    </>
  );
}
