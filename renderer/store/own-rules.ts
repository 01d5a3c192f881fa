/** The laboratory's own rule packs beside the program's: read anew when the recorder answers, and when asked for. */
import { computed, effect, signal, untracked } from '@preact/signals';
import { packsWith } from '../../core/acceptance/packs.ts';
import { type RulePack, readRulePack } from '../../core/acceptance/read-rule-pack.ts';
import type { ReplyOf } from '../../core/contract/index.ts';
import { request, session } from './session-store.ts';

/** What the rules folder held when it was read last; null before that. */
export const rulesFolder = signal<ReplyOf<'rules.folder'> | null>(null);

const ownPacks = computed((): readonly RulePack[] =>
  (rulesFolder.value?.packs ?? []).flatMap(({ origin, pack }) => {
    const read = readRulePack(pack);
    return read.ok ? [{ ...read.pack, origin }] : [];
  }),
);

/** All packs from which is chosen, codes first, a laboratory's own last. */
export const packsAtHand = computed(() => packsWith(ownPacks.value));

export async function readRulesFolder(): Promise<void> {
  const read = await request('rules.folder', {});
  if (read.ok) rulesFolder.value = read.value;
}

/** Reads it whenever a recorder has begun to answer. Returns what stops it. */
export function followRulesFolder(): () => void {
  return effect(() => {
    if (session.value?.recorder.pid !== undefined && untracked(() => rulesFolder.value) === null)
      void readRulesFolder();
  });
}
