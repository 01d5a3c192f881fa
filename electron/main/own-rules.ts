/** The folder of a laboratory's own rule packs: the settings name it, never the page. */
import type { RequestName } from '../../core/contract/index.ts';

const ABOUT_RULES: ReadonlySet<RequestName> = new Set(['rules.folder', 'set.save', 'set.judge']);

/** A checked request with the folder of the settings in it, where it is one about rules. */
export function withRulesFolder(name: RequestName, payload: unknown, folder: string | null): unknown {
  if (!ABOUT_RULES.has(name) || typeof payload !== 'object' || payload === null) return payload;
  return { ...payload, rulesFolder: folder ?? undefined };
}
