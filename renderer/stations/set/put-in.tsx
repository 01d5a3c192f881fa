/** Specimens that are kept already put into the set: the one pulled last first, then those kept last. */
import { useSignal } from '@preact/signals';
import { useEffect } from 'preact/hooks';
import type { PullLine } from '../../../core/contract/pull-requests.ts';
import { Button } from '../../design/button.tsx';
import { FaultBlock } from '../../design/field.tsx';
import { say } from '../../design/said.tsx';
import { momentText } from '../../numbers/format.ts';
import { peakText } from '../../archive/peak-text.ts';
import { errand } from '../../store/errand.ts';
import { request } from '../../store/session-store.ts';
import { words } from '../../words/words.ts';
import { type OpenedSet, refreshSet } from './open-set.ts';

/** As many as can be looked over. */
const SHOWN_MAX = 12;
/** Pulls among which those of the specimens shown are looked for. */
const PULLS_LOOKED_AT = 50;

interface Candidate {
  readonly specimenId: number;
  readonly name: string;
  readonly pulledLast: boolean;
  readonly keptWallMs: number;
  /** Its newest pull, where one is among those looked at. */
  readonly pull: PullLine | undefined;
}

const joining = errand();

/** Two specimens may have one name: their pull, its moment and its peak tell them apart. */
function factsOf({ specimenId, keptWallMs, pull }: Candidate): string {
  const text = words.value.set.join;
  return pull === undefined
    ? text.notPulled(String(specimenId), momentText(keptWallMs))
    : text.pulled(
        String(pull.pullId),
        momentText(pull.startedWallMs),
        pull.peakForceN === null ? words.value.common.none : peakText(pull.peakForceN),
      );
}

export function PutIn({ opened: { kept } }: { readonly opened: OpenedSet }) {
  const text = words.value.set.join;
  const open = useSignal(false);
  const candidates = useSignal<readonly Candidate[]>([]);
  const look = async () => {
    const [pulls, specimens] = await Promise.all([
      request('pull.list', { limit: PULLS_LOOKED_AT }),
      request('specimen.list', { limit: SHOWN_MAX }),
    ]);
    const pulled = pulls.ok ? pulls.value.items : [];
    const listed = specimens.ok ? specimens.value.items : [];
    // The pull names the specimen as it was then; the list has its newest correction.
    const found = listed.map(({ specimenId, supersedes, specimen, savedWallMs }) => {
      const pull = pulled.find((one) => one.specimenId === specimenId || one.specimenId === supersedes);
      return {
        specimenId,
        name: specimen.id,
        keptWallMs: savedWallMs,
        pull,
        pulledLast: pull !== undefined && pull === pulled[0],
      };
    });
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
            name={`${one.pulledLast ? text.newestPull(one.name) : text.specimen(one.name)} (${factsOf(one)})`}
            onPress={() => void put(one)}
          >
            {one.pulledLast ? text.newestPull(one.name) : one.name}{' '}
            <span class="pencil small">{factsOf(one)}</span>
          </Button>
        ))}
      </div>
    </details>
  );
}
