/** Specimens that are kept already put into the set: the one pulled last first, then those kept last. */
import { useSignal } from '@preact/signals';
import { useEffect } from 'preact/hooks';
import { Button } from '../../design/button.tsx';
import { FaultBlock } from '../../design/field.tsx';
import { say } from '../../design/said.tsx';
import { errand } from '../../store/errand.ts';
import { request } from '../../store/session-store.ts';
import { words } from '../../words/words.ts';
import { type OpenedSet, refreshSet } from './open-set.ts';

/** As many as can be looked over. */
const SHOWN_MAX = 12;

interface Candidate {
  readonly specimenId: number;
  readonly name: string;
  readonly pulledLast: boolean;
}

const joining = errand();

export function PutIn({ opened: { kept } }: { readonly opened: OpenedSet }) {
  const text = words.value.set.join;
  const open = useSignal(false);
  const candidates = useSignal<readonly Candidate[]>([]);
  const look = async () => {
    const [pulls, specimens] = await Promise.all([
      request('pull.list', { limit: 1 }),
      request('specimen.list', { limit: SHOWN_MAX }),
    ]);
    const newest = pulls.ok ? (pulls.value.items[0] ?? null) : null;
    const listed = specimens.ok ? specimens.value.items : [];
    // The pull names the specimen as it was then; the list has its newest correction.
    const found = listed.map(({ specimenId, supersedes, specimen }) => ({
      specimenId,
      name: specimen.id,
      pulledLast: newest?.specimenId === specimenId || newest?.specimenId === supersedes,
    }));
    const already = new Set(kept.members.flatMap((one) => [one.specimenId, one.firstSpecimenId]));
    candidates.value = found
      .filter((one) => !already.has(one.specimenId))
      .sort((a, b) => Number(b.pulledLast) - Number(a.pulledLast));
  };
  useEffect(() => {
    if (open.value) void look();
  }, [open.value, kept.members.length]);
  const put = async ({ specimenId, name }: Candidate) => {
    const joined = await joining.run(() => request('set.join', { setId: kept.setId, specimenId }));
    if (joined === null) return;
    await refreshSet();
    say(text.done(name));
  };
  return (
    <details class="put-in" onToggle={(event) => (open.value = event.currentTarget.open)}>
      <summary>{text.title}</summary>
      <FaultBlock fault={joining.fault.value} />
      {candidates.value.length === 0 ? <p class="pencil">{text.none}</p> : null}
      <div class="actions">
        {candidates.value.map((one) => (
          <Button
            key={one.specimenId}
            kind="compact"
            name={one.pulledLast ? text.newestPull(one.name) : text.specimen(one.name)}
            onPress={() => void put(one)}
          >
            {one.pulledLast ? text.newestPull(one.name) : one.name}
          </Button>
        ))}
      </div>
    </details>
  );
}
