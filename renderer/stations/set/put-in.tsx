/** Specimens that are kept already put into the set: the one pulled last first, then those kept last. */
import { useSignal } from '@preact/signals';
import { useEffect } from 'preact/hooks';
import type { PullLine } from '../../../core/contract/pull-requests.ts';
import { NAME_LENGTH_MAX } from '../../../core/limits.ts';
import { statedText } from '../../../core/pull/stated-day.ts';
import { Button } from '../../design/button.tsx';
import { FaultBlock, Field } from '../../design/field.tsx';
import { say } from '../../design/said.tsx';
import { fixed, momentText } from '../../numbers/format.ts';
import { peakText } from '../../archive/peak-text.ts';
import { errand } from '../../store/errand.ts';
import { request } from '../../store/session-store.ts';
import { language } from '../../store/view-settings.ts';
import { words } from '../../words/words.ts';
import { searchFor } from '../find-kept.tsx';
import { type OpenedSet, refreshSet } from './open-set.ts';

/** As many as can be looked over; others are found by their name. */
const SHOWN_MAX = 12;

interface Candidate {
  readonly specimenId: number;
  readonly name: string;
  readonly pulledLast: boolean;
  readonly keptWallMs: number;
  /** Its newest pull that counts, in any of its corrections. */
  readonly pull: PullLine | null;
}

interface Candidates {
  readonly all: readonly Candidate[];
  /** There are older ones that fit, too. */
  readonly isCut: boolean;
}

async function candidatesFor(search: string, already: ReadonlySet<number>): Promise<Candidates | null> {
  const [newest, listed] = await Promise.all([
    request('pull.list', { limit: 1 }),
    request('specimen.list', { limit: SHOWN_MAX, ...searchFor(search) }),
  ]);
  if (!listed.ok) return null;
  const specimens = listed.value.items.filter(({ specimenId }) => !already.has(specimenId));
  const pulls = await Promise.all(
    specimens.map(async ({ specimenId }) => {
      const its = await request('specimen.pulls', { specimenId });
      const pullId = its.ok ? Math.max(0, ...its.value.pulls.map((one) => one.pullId)) : 0;
      if (pullId === 0) return null;
      const kept = await request('pull.get', { pullId });
      return kept.ok ? kept.value : null;
    }),
  );
  const last = newest.ok ? newest.value.items[0]?.pullId : undefined;
  const all = specimens.map(({ specimenId, specimen, savedWallMs }, i) => ({
    specimenId,
    name: specimen.id,
    keptWallMs: savedWallMs,
    pull: pulls[i] ?? null,
    pulledLast: last !== undefined && pulls[i]?.pullId === last,
  }));
  return {
    all: all.sort((a, b) => Number(b.pulledLast) - Number(a.pulledLast)),
    isCut: listed.value.nextCursor !== null,
  };
}

const joining = errand();

/** Two specimens may have one name: their pull, its moment and its peak tell them apart. */
function factsOf({ specimenId, keptWallMs, pull }: Candidate): string {
  const text = words.value.set.join;
  return pull === null
    ? text.notPulled(String(specimenId), momentText(keptWallMs))
    : text.pulled(
        String(pull.pullId),
        pull.pulledOn === null
          ? momentText(pull.startedWallMs)
          : words.value.exchange.statedDate(statedText(pull.pulledOn)),
        pull.peakForceN === null ? words.value.common.none : peakText(pull.peakForceN),
      );
}

export function PutIn({ opened: { kept } }: { readonly opened: OpenedSet }) {
  const text = words.value.set.join;
  const open = useSignal(false);
  const typed = useSignal('');
  const found = useSignal<Candidates | null>(null);
  const search = typed.value.trim();
  useEffect(() => {
    if (!open.value) return;
    let isLast = true;
    const already = new Set(kept.members.flatMap((one) => [one.specimenId, one.firstSpecimenId]));
    void candidatesFor(search, already).then((answer) => {
      if (isLast && answer !== null) found.value = answer;
    });
    return () => {
      isLast = false;
    };
  }, [open.value, search, kept.members.length]);
  const shown = found.value?.all ?? [];
  const put = async ({ specimenId, name }: Candidate) => {
    const joined = await joining.run(() => request('set.join', { setId: kept.setId, specimenId }));
    if (joined === null) return;
    await refreshSet();
    say(text.done(name));
  };
  return (
    <details class="put-in" id="put-in" onToggle={(event) => (open.value = event.currentTarget.open)}>
      <summary>{text.title}</summary>
      <FaultBlock fault={joining.fault.value} />
      <Field
        id="put-in-find"
        label={words.value.exchange.findSpecimen}
        hint={
          found.value?.isCut === true
            ? words.value.exchange.specimensCut(fixed(SHOWN_MAX, 0, language.value))
            : undefined
        }
        value={typed.value}
        lengthMax={NAME_LENGTH_MAX}
        onInput={(value) => (typed.value = value)}
      />
      {found.value !== null && shown.length === 0 ? (
        <p class="pencil" role="status">
          {search === '' || found.value.isCut ? text.none : text.noneFits}
        </p>
      ) : null}
      <div class="actions">
        {shown.map((one) => (
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
