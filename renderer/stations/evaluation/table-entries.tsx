/** Tables that correct a channel: which file each is from, another file in its place, or none. */
import { Button } from '../../design/button.tsx';
import { FaultBlock } from '../../design/field.tsx';
import { errand } from '../../store/errand.ts';
import { request } from '../../store/session-store.ts';
import { words } from '../../words/words.ts';
import type { EvaluationDraft, TableEntry } from './evaluation-draft.ts';
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
