/** The table of a verification worksheet: its columns' heads, and the lines that are typed into. */
import type { ComponentChildren } from 'preact';

export function WorksheetTable({
  heads,
  children,
}: {
  readonly heads: readonly string[];
  readonly children: ComponentChildren;
}) {
  return (
    <div class="table-scroll">
      <table class="worksheet-table">
        <thead>
          <tr>
            {heads.map((head) => (
              <th key={head} scope="col">
                {head}
              </th>
            ))}
          </tr>
        </thead>
        <tbody>{children}</tbody>
      </table>
    </div>
  );
}
