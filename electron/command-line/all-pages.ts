/** Everything of a list that requests hand out page by page. */

export interface Page<Item> {
  readonly items: readonly Item[];
  readonly nextCursor: number | null;
}

/** In the order of the pages. `ask` gets the cursor of the page that it is to ask for; none for the first. */
export async function allPages<Item>(
  ask: (at: { readonly cursor?: number }) => Promise<Page<Item>>,
): Promise<Item[]> {
  const items: Item[] = [];
  let cursor: number | null = null;
  do {
    const page: Page<Item> = await ask(cursor === null ? {} : { cursor });
    items.push(...page.items);
    cursor = page.nextCursor;
  } while (cursor !== null);
  return items;
}
