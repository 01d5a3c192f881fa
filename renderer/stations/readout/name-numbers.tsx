/** What a proposal can't tell is named by the person at the frame: which number moves when it is pressed on? */
import { type Signal, signal, useSignal } from '@preact/signals';
import { useEffect, useId } from 'preact/hooks';
import type { LearntProposal } from '../../../core/contract/learn-requests.ts';
import {
  CHANNEL_QUANTITIES,
  type ProfileQuantity,
  type ReadoutProfile,
} from '../../../core/contract/readout-profile.ts';
import type { Source } from '../../../core/contract/source.ts';
import type { UnitSymbol } from '../../../core/quantity/units.ts';
import { Button } from '../../design/button.tsx';
import { FaultBlock, Field } from '../../design/field.tsx';
import { focusFirstFault } from '../../design/focus-fault.ts';
import { say, sayAloud } from '../../design/said.tsx';
import { asShown, fixed } from '../../numbers/format.ts';
import { errand } from '../../store/errand.ts';
import { HeldTyping, useHeldTyping } from '../../store/held-typing.ts';
import { learning, request, session } from '../../store/session-store.ts';
import { useSteps } from '../../store/taken-back.ts';
import { language } from '../../store/view-settings.ts';
import { words } from '../../words/words.ts';
import { WayOn, kindOf } from '../marked-step.tsx';
import { withoutOne } from './line-table.tsx';
import { movedText } from './moved-text.ts';
import { type ChannelName, namedProfile, proposedNames, unitsOf } from './named-profile.ts';

const keeping = errand();

/** The same lines may be learned again, and are another proposal then. */
const subjectOf = ({ profile }: LearntProposal): string => JSON.stringify(profile);

interface Named {
  readonly subject: Signal<string>;
  readonly names: Signal<readonly ChannelName[]>;
  readonly name: Signal<string>;
  readonly begun: Signal<readonly ChannelName[]>;
}
/** By the proposal. Once another one stands in its place there is nothing that could be missed. */
const held = new HeldTyping<Named>('learnt', ({ subject, names, name, begun }) => {
  const now = learning.value?.state === 'done' ? learning.value.proposal : null;
  if (now === null || subjectOf(now) !== subject.value) return false;
  return name.value !== '' || JSON.stringify(names.value) !== JSON.stringify(begun.value);
});

export interface NameNumbersProps {
  readonly proposal: LearntProposal;
  readonly from: string;
  /** The port that speaks, so that its numbers can be watched; null for recorded bytes. */
  readonly source: Source | null;
  /** Whether the readout is open with the profile once that is kept; a second instrument is not alone. */
  readonly isListenedTo: (profile: ReadoutProfile) => boolean;
  readonly onKept: (profile: ReadoutProfile) => void;
}

export function NameNumbers({ proposal, from, source, isListenedTo, onKept }: NameNumbersProps) {
  const text = words.value.learn;
  const subject = subjectOf(proposal);
  const { names, name } = useHeldTyping(held, subject, () => {
    const begun = proposedNames(proposal);
    return { subject: signal(subject), names: signal(begun), name: signal(''), begun: signal(begun) };
  });
  /** The field whose number has no unit. */
  const withoutUnit = useSignal<string | null>(null);
  const isNameless = useSignal(false);
  useSteps({ numbersNamed: names }, proposal);
  const count = (n: number): string => fixed(n, 0, language.value);

  useEffect(() => {
    sayAloud(text.found(from));
    // The proposal is listened to at once: its numbers must be seen to move.
    if (source !== null)
      void keeping.run(() => request('readout.open', { source, profile: proposal.profile }));
  }, [proposal]);

  const drop = async (): Promise<void> => {
    held.letGo(subject);
    learning.value = null;
    if (source !== null) await keeping.run(() => request('readout.close', {}));
  };
  const keep = async (): Promise<void> => {
    const trimmed = name.value.trim();
    isNameless.value = trimmed === '';
    const { controlLines } = proposal.profile;
    const named = namedProfile(proposal, names.value, { name: trimmed === '' ? '?' : trimmed, controlLines });
    withoutUnit.value = named.ok ? null : named.field;
    if (trimmed === '') focusFirstFault('.learn');
    if (!named.ok || trimmed === '') return;
    const { profile } = named;
    if ((await keeping.run(() => request('readout.save-profile', { profile }))) === null) return;
    if (source !== null) {
      const listened = isListenedTo(profile)
        ? await keeping.run(() => request('readout.open', { source, profile }))
        : await keeping.run(() => request('readout.close', {}));
      if (listened === null) return;
    }
    held.letGo(subject);
    learning.value = null;
    onKept(profile);
    say(text.kept(profile.name));
  };
  return (
    <section class="learn" aria-label={text.found(from)}>
      <div class="listening-to">
        <p class="pencil small">{text.found(from)}</p>
        <strong>
          {text.confidence(
            count(proposal.confidence * 100),
            count(proposal.readings),
            count(proposal.rejected),
          )}
        </strong>
      </div>
      <p>{source === null ? '' : text.press}</p>
      {proposal.profile.channels.map(({ field }, index) => (
        <NumberRow
          key={field}
          field={field}
          named={names.value[index] ?? { quantity: 'other', unit: '' }}
          watched={source !== null}
          onName={(changed) => {
            withoutUnit.value = null;
            names.value = names.value.map((each, at) => (at === index ? changed : each));
          }}
        />
      ))}
      <FaultBlock
        fault={
          withoutUnit.value === null
            ? null
            : { code: 'unit-missing', sentence: text.unitMissing(withoutUnit.value) }
        }
      />
      <Field
        id="learnt-name"
        label={text.name}
        value={name.value}
        fault={isNameless.value ? text.nameMissing : null}
        lengthMax={300}
        onInput={(typed) => {
          name.value = typed;
          isNameless.value = false;
        }}
      />
      <FaultBlock fault={keeping.fault.value} />
      <div class="actions">
        <Button kind={kindOf('readout')} id="keep-learnt" onPress={() => void keep()}>
          {text.keep}
        </Button>
        <Button id="drop-learnt" onPress={() => void drop()}>
          {held.isTyped(subject) ? text.dropTyped : text.drop}
        </Button>
        <WayOn beside={[]} />
      </div>
    </section>
  );
}

interface NumberRowProps {
  readonly field: string;
  readonly named: ChannelName;
  readonly watched: boolean;
  readonly onName: (name: ChannelName) => void;
}

function NumberRow({ field, named, watched, onName }: NumberRowProps) {
  const text = words.value.learn;
  const [quantityId, unitId] = [useId(), useId()];
  return (
    <div class="number-row" role="group" aria-label={`${text.field} ${field}`}>
      <span>
        {text.field} <strong>{field}</strong>
        {watched ? <Moved field={field} /> : null}
      </span>
      <label for={quantityId}>{text.quantity}</label>
      <select
        id={quantityId}
        class="entry"
        value={named.quantity}
        onChange={({ currentTarget }) => {
          const quantity = currentTarget.value as ProfileQuantity;
          const fits = named.unit !== '' && unitsOf(quantity).includes(named.unit);
          onName({ quantity, unit: fits ? named.unit : '' });
        }}
      >
        {CHANNEL_QUANTITIES.map((quantity) => (
          <option key={quantity} value={quantity}>
            {text.quantities[quantity]}
          </option>
        ))}
      </select>
      <label for={unitId}>{text.unit}</label>
      <select
        id={unitId}
        class="entry"
        value={named.unit}
        onChange={({ currentTarget }) => onName({ ...named, unit: currentTarget.value as UnitSymbol | '' })}
      >
        <option value="">{text.unknown}</option>
        {unitsOf(named.quantity).map((unit) => (
          <option key={unit} value={unit}>
            {unit}
          </option>
        ))}
      </select>
    </div>
  );
}

/** The number as it is shown now, and how far it has gone since it was watched, in the unit that it is shown in. */
function Moved({ field }: { readonly field: string }) {
  const text = words.value.learn;
  const bounds = useSignal<readonly [number, number] | null>(null);
  const live = session.value?.live.find(({ key }) => key === field);
  const value = live?.value ?? null;
  useEffect(() => {
    if (value === null) return;
    const [low, high] = bounds.value ?? [value, value];
    bounds.value = [Math.min(low, value), Math.max(high, value)];
  }, [value]);
  const moved = bounds.value === null ? 0 : bounds.value[1] - bounds.value[0];
  return (
    <span class="number">
      {' '}
      {live === undefined ? '–' : asShown(withoutOne(live.shownText), language.value)} · {text.moved}{' '}
      {live === undefined ? fixed(moved, 3, language.value) : movedText(moved, live, language.value)}
    </span>
  );
}
