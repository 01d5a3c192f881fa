/** The set filled in: purpose, rules, materials, welding. A correction keeps the statement before, and says why. */
import { type Signal, signal, useSignal } from '@preact/signals';
import { useId, useLayoutEffect } from 'preact/hooks';
import { DECISION_RULES } from '../../../core/acceptance/decision-rule.ts';
import { DOCUMENT_KINDS, SET_PURPOSES, SPECIMEN_TYPES } from '../../../core/sets/set-form.ts';
import { Button } from '../../design/button.tsx';
import { focusFirstFault } from '../../design/focus-fault.ts';
import { FaultBlock, Field, FieldFault, type FieldProps } from '../../design/field.tsx';
import { drawnAtOnce } from '../../design/drawn-at-once.ts';
import { LeaveForm } from '../../design/leave-form.tsx';
import { say } from '../../design/said.tsx';
import { forgetSteps } from '../../store/taken-back.ts';
import { PersonField } from '../../people/person-field.tsx';
import { errand } from '../../store/errand.ts';
import { readRulesFolder } from '../../store/own-rules.ts';
import { HeldTyping, useHeldTyping } from '../../store/held-typing.ts';
import { request } from '../../store/session-store.ts';
import { unbroken } from '../../numbers/prose.ts';
import { told } from '../../words/told.ts';
import { words } from '../../words/words.ts';
import { openSet, openedSet, refreshSet } from './open-set.ts';
import { OwnRulesBlock } from './own-rules-block.tsx';
import { person } from './person.ts';
import { packChoices } from './pack-choices.ts';
import { SelectField } from './select-field.tsx';
import {
  type SetDraft,
  type SetField,
  changeEntry,
  faultsOfDraft,
  formOfDraft,
  isTypedSet,
  packOf,
  packs,
  setDraft,
  wantedEntry,
} from './set-draft.ts';

const saving = errand();

/** By set, beside its draft: why it is corrected. */
const held = new HeldTyping<{ readonly reason: Signal<string> }>('setReason');

export function SetFormSheet({ draft }: { readonly draft: SetDraft }) {
  const text = words.value.set.form;
  const tried = useSignal(false);
  const subject = String(draft.setId);
  const { reason } = useHeldTyping(held, subject, () => ({ reason: signal('') }));
  const correction = draft.setId !== null;
  const faults = tried.value ? faultsOfDraft(draft) : new Map<SetField | '', string>();
  const reasonMissing = correction && reason.value.trim() === '';
  const pack = packOf(draft);
  const allWeldMetal = draft.entries.specimenType === 'all-weld-metal-round';
  const pipe =
    draft.entries.specimenType === 'full-section-pipe' || draft.entries.specimenType === 'pipe-strip';
  const wanted = wantedEntry.value;
  // Before anything else is pressed: what is typed next belongs into this field.
  useLayoutEffect(() => {
    document.getElementById(`set-${wanted}`)?.focus();
    void readRulesFolder();
    wantedEntry.value = 'name';
  }, []);
  const furtherOpen = useSignal(wanted === 'decisionRule');

  const entry = (
    field: SetField,
    label: string,
    more: { hint?: string; offered?: readonly string[]; lines?: boolean; number?: boolean } = {},
  ) => (
    <Entry
      key={field}
      id={`set-${field}`}
      label={label}
      value={draft.entries[field] ?? ''}
      fault={faults.get(field)}
      onInput={(value) => changeEntry(field, value)}
      {...more}
    />
  );

  const keep = async () => {
    tried.value = true;
    const count = faultsOfDraft(draft).size + (reasonMissing ? 1 : 0);
    if (count > 0) {
      say(text.faultsAbove(String(count)));
      focusFirstFault('.set-form');
      return;
    }
    const kept = openedSet.value?.kept;
    const fillerHeat =
      kept !== undefined && kept.setId === draft.setId ? kept.set.form.filler?.heat : undefined;
    const by = person.value.trim();
    const saved = await saving.run(() =>
      request('set.save', {
        form: formOfDraft(draft, fillerHeat),
        ...(draft.setId === null ? {} : { setId: draft.setId, reason: reason.value.trim() }),
        ...(by === '' ? {} : { by }),
      }),
    );
    if (saved === null) return;
    held.letGo(subject);
    openSet(saved.setId);
    await refreshSet();
    drawnAtOnce(() => (setDraft.value = null));
    // Taken back it would be kept a second time.
    forgetSteps(setDraft);
    say(text.kept(draft.entries.name?.trim() ?? ''));
    document.getElementById('set-step')?.focus();
  };

  return (
    <form
      class="station set-form"
      aria-label={correction ? text.titleCorrect : text.title}
      onSubmit={(event) => {
        event.preventDefault();
        void keep();
      }}
    >
      <h2>{correction ? text.titleCorrect : text.title}</h2>
      <div class="entry-row wide">
        {entry('name', text.name, { hint: text.nameHint })}
        <SelectField
          label={text.purpose}
          value={draft.entries.purpose ?? ''}
          options={SET_PURPOSES.map((value) => ({ value, label: text.purposes[value] }))}
          onChoose={(value) => changeEntry('purpose', value)}
        />
        <SelectField
          label={text.specimenType}
          value={draft.entries.specimenType ?? ''}
          options={SPECIMEN_TYPES.filter(
            (type) => (type === 'all-weld-metal-round') === (pack?.file.test === 'all-weld-metal'),
          ).map((value) => ({ value, label: text.specimenTypes[value] }))}
          fault={faults.get('specimenType')}
          onChoose={(value) => changeEntry('specimenType', value)}
        />
      </div>
      {/* Over the whole width: a rule is told from its neighbour by its edition, which stands at the end of its name. */}
      <div class="entry-row whole">
        <SelectField
          label={text.pack}
          value={draft.entries.rulePackId ?? ''}
          options={packChoices(packs())}
          fault={faults.get('rulePackId')}
          onChoose={(value) => changeEntry('rulePackId', value)}
        />
      </div>
      {pack === undefined ? null : (
        <p class="pencil small pack-summary">
          {unbroken(told(pack.file.summary))}
          {pack.file.status === 'memory' ? ` ${text.fromMemory}` : ''}
        </p>
      )}
      <OwnRulesBlock from={pack} />
      <h3>{text.materials}</h3>
      {allWeldMetal
        ? null
        : (['base1', 'base2'] as const).map((metal, index) => (
            // Each metal on a line of its own, so that no heat is typed beside the wrong one.
            <div class="entry-row" key={metal}>
              {entry(metal, index === 0 ? text.baseMetal : text.otherBaseMetal, {
                hint: text.baseMetalHint,
                offered: (pack?.baseMetals ?? []).map((one) => one.name),
              })}
              {entry(`${metal}Minimum`, text.minimum, { hint: text.minimumHint, number: true })}
              {entry(`${metal}Heat`, text.heat)}
              {entry(`${metal}Lot`, text.lot)}
            </div>
          ))}
      <div class="entry-row">
        {entry('filler', text.filler, { offered: (pack?.fillers ?? []).map((one) => one.name) })}
        {entry('fillerLot', text.fillerLot)}
        {allWeldMetal
          ? [
              entry('fillerMinimum', text.fillerMinimum, { hint: text.minimumHint, number: true }),
              entry('yieldMinimum', text.yieldMinimum, { hint: text.minimumHint, number: true }),
              entry('elongationMinimum', text.elongationMinimum, { hint: text.minimumHint, number: true }),
            ]
          : entry('weldMetalMinimum', text.weldMetalMinimum, {
              hint: text.weldMetalMinimumHint,
              number: true,
            })}
      </div>
      <h3>{text.welding}</h3>
      <div class="entry-row">
        {entry('process', text.process)}
        {entry('joint', text.joint)}
        {entry('position', text.position)}
        {entry('thickness', text.thickness, { number: true })}
        {pipe
          ? [
              entry('outsideDiameter', text.outsideDiameter, { number: true }),
              entry('wall', text.wall, { number: true }),
            ]
          : null}
        {entry('welder', text.welder)}
        {(['wps', 'pqr'] as const).map((kind) => entry(kind, text.documents[kind]))}
        {entry('requiredCount', text.count, { hint: text.countHint, number: true })}
        {(draft.entries.requiredCount ?? '').trim() === ''
          ? null
          : entry('fewerReason', text.fewerReason, { hint: text.fewerReasonHint })}
      </div>
      <details open={furtherOpen.value} onToggle={(event) => (furtherOpen.value = event.currentTarget.open)}>
        <summary>{text.more}</summary>
        <div class="entry-row">
          {DOCUMENT_KINDS.filter((kind) => kind !== 'wps' && kind !== 'pqr').map((kind) =>
            entry(kind, text.documents[kind]),
          )}
          {entry('customer', text.customer)}
          <SelectField
            label={text.system}
            value={draft.entries.system ?? ''}
            options={[
              { value: '', label: text.systems.measured },
              { value: 'US', label: text.systems.US },
              { value: 'SI', label: text.systems.SI },
            ]}
            onChoose={(value) => changeEntry('system', value)}
          />
          <SelectField
            id="set-decisionRule"
            label={text.decision}
            value={draft.entries.decisionRule ?? DECISION_RULES[0]}
            options={DECISION_RULES.map((value) => ({ value, label: text.decisions[value] }))}
            onChoose={(value) => changeEntry('decisionRule', value)}
          />
          {(draft.entries.decisionRule ?? DECISION_RULES[0]) === DECISION_RULES[0]
            ? null
            : entry('guardFactor', text.guardFactor, { number: true })}
          {entry('notes', text.notes, { lines: true })}
        </div>
      </details>
      <div class="entry-row">
        <PersonField
          label={text.by}
          hint={words.value.plan.optional}
          value={person.value}
          onInput={(value) => (person.value = value)}
        />
        {correction ? (
          <Field
            label={text.reason}
            hint={text.reasonHint}
            value={reason.value}
            fault={tried.value && reasonMissing ? words.value.set.reasonNeeded : null}
            onInput={(value) => (reason.value = value)}
          />
        ) : null}
      </div>
      <FieldFault id="set-form-fault" sentence={faults.get('')} />
      <FaultBlock fault={saving.fault.value} />
      <div class="actions next-step">
        <Button kind="call" id="keep-set" onPress={() => void keep()}>
          {correction ? text.saveCorrection : text.save}
        </Button>
        <LeaveForm
          isTyped={held.isTyped(subject) || isTypedSet(draft)}
          onPress={() => {
            held.letGo(subject);
            setDraft.value = null;
          }}
        />
      </div>
      {/* Enter in any entry keeps the set. */}
      <button type="submit" hidden />
    </form>
  );
}

/** An entry with the names that the tables of the rules know, where there are such. */
function Entry({ offered, ...field }: FieldProps & { readonly offered?: readonly string[] }) {
  const listId = useId();
  if (offered === undefined || offered.length === 0) return <Field {...field} />;
  return (
    <>
      <Field {...field} list={listId} />
      <datalist id={listId}>
        {offered.map((name) => (
          <option key={name} value={name} />
        ))}
      </datalist>
    </>
  );
}
