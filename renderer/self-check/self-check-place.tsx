/** Published curves and worked examples through the installed program, each with what it should be and what it is. */
import { useSignal } from '@preact/signals';
import type { ReplyOf } from '../../core/contract/index.ts';
import type { SelfCheckLineSent } from '../../core/contract/self-check-requests.ts';
import { Button } from '../design/button.tsx';
import { FaultBlock } from '../design/field.tsx';
import { say } from '../design/said.tsx';
import { TableScroll } from '../design/table-scroll.tsx';
import { momentText } from '../numbers/format.ts';
import { errand } from '../store/errand.ts';
import { request } from '../store/session-store.ts';
import { words } from '../words/words.ts';
import { checkNumberText, verdictMark } from './check-texts.ts';
import '../stations/station.css';
import '../archive/archive-place.css';
import './self-check.css';

type Report = ReplyOf<'program.self-check'> & { readonly endedWallMs: number };

const checking = errand();

export function SelfCheckPlace() {
  const text = words.value.selfCheck;
  const report = useSignal<Report | null>(null);
  const run = async () => {
    const answer = await checking.run(() => request('program.self-check', {}));
    if (answer === null) return;
    report.value = { ...answer, endedWallMs: Date.now() };
    say(summary(report.value));
  };
  return (
    <div class="station self-check">
      <h2>{words.value.stations['self-check']}</h2>
      <p class="self-check-lead">{text.lead}</p>
      <div class="actions">
        <Button kind="call" id="run-self-check" onPress={() => void run()}>
          {checking.busy.value ? text.running : text.run}
        </Button>
      </div>
      <FaultBlock fault={checking.fault.value} />
      {report.value === null ? null : <Findings report={report.value} />}
    </div>
  );
}

function summary({ agreeing, failing }: Report): string {
  const text = words.value.selfCheck;
  return failing === 0
    ? text.allAgree(String(agreeing))
    : text.someDiffer(String(failing), String(agreeing + failing));
}

function Findings({ report }: { readonly report: Report }) {
  const text = words.value.selfCheck;
  const groups = [...new Set(report.lines.map((line) => line.group))];
  return (
    <>
      <p class="self-check-verdict" id="self-check-verdict">
        <span aria-hidden="true">{report.failing === 0 ? '✓' : '▲'}</span> {summary(report)}
      </p>
      <p class="number">
        {text.ran(report.programVersion, report.method, report.platform, momentText(report.endedWallMs))}
      </p>
      {groups.map((group) => (
        <Group key={group} group={group} lines={report.lines.filter((line) => line.group === group)} />
      ))}
    </>
  );
}

function Group({ group, lines }: { readonly group: string; readonly lines: readonly SelfCheckLineSent[] }) {
  const text = words.value.selfCheck;
  const sources = [...new Set(lines.map((line) => line.source))];
  return (
    <section class="block">
      <h3>{group}</h3>
      {sources.map((source) => (
        <div key={source}>
          <p class="self-check-source">{source}</p>
          <TableScroll label={`${group}: ${source}`}>
            <table class="pull-table self-check-table">
              <thead>
                <tr>
                  <th scope="col">{text.what}</th>
                  <th scope="col" class="amount">
                    {text.expected}
                  </th>
                  <th scope="col" class="amount">
                    {text.got}
                  </th>
                  <th scope="col" class="amount">
                    {text.difference}
                  </th>
                  <th scope="col" class="amount">
                    {text.allowed}
                  </th>
                  <th scope="col">{text.verdict}</th>
                </tr>
              </thead>
              <tbody>
                {lines
                  .filter((line) => line.source === source)
                  .map((line) => (
                    <Row key={line.what} line={line} />
                  ))}
              </tbody>
            </table>
          </TableScroll>
        </div>
      ))}
    </section>
  );
}

function Row({ line }: { readonly line: SelfCheckLineSent }) {
  const text = words.value.selfCheck;
  return (
    <tr data-verdict={line.verdict}>
      <td>
        {line.what}
        {line.status === 'derived' ? <span class="self-check-note"> {text.derived}</span> : null}
      </td>
      <td class="amount number">{checkNumberText(line.expected, line.unit)}</td>
      <td class="amount number">
        {line.got === null ? words.value.common.none : checkNumberText(line.got, line.unit)}
      </td>
      <td class="amount number">
        {line.difference === null ? words.value.common.none : checkNumberText(line.difference, line.unit, 3)}
      </td>
      <td class="amount number" title={line.toleranceReason}>
        {line.difference === null ? words.value.common.none : checkNumberText(line.tolerance, line.unit, 3)}
      </td>
      <td>
        <span aria-hidden="true">{verdictMark(line.verdict)}</span> {text.verdicts[line.verdict]}
        {line.reason === undefined ? null : `: ${line.reason}`}
      </td>
    </tr>
  );
}
