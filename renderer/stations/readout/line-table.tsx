/** Raw lines and the readings made of them, side by side, newest first. Nothing of it is recorded. */
import { useSignal } from '@preact/signals';
import type { PreviewLine } from '../../../core/contract/readout-requests.ts';
import type { Session } from '../../../core/contract/session.ts';
import { Button } from '../../design/button.tsx';
import { asShown, fixed } from '../../numbers/format.ts';
import { bytesWithoutLine } from '../../store/session-store.ts';
import { language } from '../../store/view-settings.ts';
import { told } from '../../words/told.ts';
import { words } from '../../words/words.ts';
import './line-table.css';

export interface LineTableProps {
  readonly lines: readonly PreviewLine[];
  /** Counts of what is open; null for lines that came before. */
  readonly readout: Session['readout'];
  /** What stands above it in place of "nothing is recorded". */
  readonly head?: string;
}

export function LineTable({ lines: come, readout, head }: LineTableProps) {
  const text = words.value.readout;
  /** Lines as they were when they were told to hold still; null while they run. */
  const still = useSignal<readonly PreviewLine[] | null>(null);
  const lines = still.value ?? come;
  const misfits = Object.entries(readout?.misfitCount ?? {}).filter(([, count]) => count > 0);
  /** Channels in the order in which the newest reading has them: one column each. */
  const keys = lines.findLast((line) => line.misfit === null)?.values.map((v) => v.key) ?? [];
  const count = (n: number) => fixed(n, 0, language.value);
  return (
    <section class="lines" aria-label={`${text.raw}, ${text.parsed}`}>
      <div class="lines-head">
        <span>
          {head ?? text.nothingRecorded} {readout === null ? '' : text.lines(count(readout.lineCount))}
          {misfits.map(([reason, n]) => ` · ${misfitText(reason)}: ${count(n)}`)}
        </span>
        <Button
          kind="compact"
          pressed={still.value !== null}
          onPress={() => (still.value = still.value === null ? come : null)}
        >
          {still.value === null ? text.hold : text.goOn}
        </Button>
      </div>
      {/* A region that scrolls must be reachable by keyboard. */}
      <div class="lines-scroll" tabIndex={0} role="region" aria-label={text.raw}>
        {lines.length === 0 ? (
          <p class="empty" style={{ padding: '1rem' }}>
            {bytesWithoutLine.value > 0 ? text.bytesNoLine(count(bytesWithoutLine.value)) : text.noLines}
          </p>
        ) : (
          <table data-still={still.value !== null}>
            <thead>
              <tr>
                <th scope="col">
                  <span class="heard">{text.lineNumber}</span>
                </th>
                <th scope="col">{text.raw}</th>
                {keys.map((key) => (
                  <th scope="col" key={key}>
                    {told(key)}
                  </th>
                ))}
                {keys.length === 0 ? <th scope="col">{text.parsed}</th> : null}
              </tr>
            </thead>
            <tbody>
              {[...lines].reverse().map((line) => (
                <LineRow key={line.line} line={line} keys={keys} />
              ))}
            </tbody>
          </table>
        )}
      </div>
    </section>
  );
}

function LineRow({ line, keys }: { readonly line: PreviewLine; readonly keys: readonly string[] }) {
  const figures = words.value.figures;
  return (
    <tr class={line.misfit === null ? undefined : 'misfit'}>
      <td class="line-number">{line.line}</td>
      <td class="raw">
        <div>
          <RawText text={line.text} />
        </div>
      </td>
      {line.misfit === null ? (
        keys.map((key) => {
          const value = line.values.find((v) => v.key === key);
          return (
            <td class="value" data-status={value?.status} key={key}>
              {value === undefined ? (
                words.value.common.none
              ) : value.status === 'ok' ? (
                asShown(withoutOne(value.shownText), language.value)
              ) : (
                // Where no number was shown, its text is the status itself.
                <span>
                  {figures[value.status]}{' '}
                  {value.shownText === value.status
                    ? ''
                    : asShown(withoutOne(value.shownText), language.value)}
                </span>
              )}
            </td>
          );
        })
      ) : (
        <td class="why" colSpan={Math.max(1, keys.length)}>
          ▲ {misfitText(line.misfit)}
        </td>
      )}
    </tr>
  );
}

/** A plain number, whose unit is 1, is shown without it: "4.08 1" would be read as another number. */
export const withoutOne = (shownText: string): string => shownText.replace(/ 1$/, '');

/** Words for why a line gave no reading; a reason that the page doesn't know yet is shown as it is. */
export function misfitText(reason: string): string {
  const known: Readonly<Record<string, string>> = words.value.readout.misfits;
  return known[reason] ?? reason;
}

/** Bytes that don't show are written as ⟨hex⟩, so that a stray STX is seen. */
function RawText({ text }: { readonly text: string }) {
  // eslint-disable-next-line no-control-regex -- exactly those are looked for
  const parts = text.split(/([\u0000-\u001f\u007f-\u00a0])/);
  return (
    <>
      {parts.map((part, i) =>
        i % 2 === 1 ? (
          <span class="control" key={i}>{`⟨${part.charCodeAt(0).toString(16).padStart(2, '0')}⟩`}</span>
        ) : (
          part
        ),
      )}
    </>
  );
}
