/** Every table that may be wider than its place is reached by keys and has a name: by one component, as no copy can forget them. */
import { readFileSync, readdirSync } from 'node:fs';
import { expect, it } from 'vitest';
import { TableScroll } from '../../../renderer/design/table-scroll.tsx';

const FOLDER = new URL('../../../renderer/', import.meta.url);

it('is a named region that holds the keys', () => {
  expect(TableScroll({ label: 'Checks', of: 'told-lines', children: null }).props).toMatchObject({
    class: 'table-scroll told-lines',
    tabIndex: 0,
    role: 'region',
    'aria-label': 'Checks',
  });
});

it('is written nowhere else', () => {
  const copies = readdirSync(FOLDER, { recursive: true, encoding: 'utf8' }).filter(
    (name) =>
      name.endsWith('.tsx') && /class="[^"]*table-scroll/.test(readFileSync(new URL(name, FOLDER), 'utf8')),
  );
  expect(copies).toEqual([]);
});
