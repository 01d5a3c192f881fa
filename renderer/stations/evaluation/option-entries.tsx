/** The entries of the form: slope, values, corrections, section, readout; each group folded until it says something. */
import type { ComponentChildren } from 'preact';
import { NAME_LENGTH_MAX } from '../../../core/limits.ts';
import { MATERIAL_KINDS } from '../../../core/results/elongation-conversion.ts';
import { EXTENSOMETER_CLASSES, FORCE_CLASSES } from '../../../core/results/force-uncertainty.ts';
import { ARC_FORMS } from '../../../core/results/pipe-strip-area.ts';
import { FINAL_SECTION_FORMS } from '../../../core/results/reduction-of-area.ts';
import { ROUNDING_RULES } from '../../../core/results/rounding.ts';
import { SECTION_RULES } from '../../../core/results/section-rule.ts';
import type { Geometry } from '../../../core/specimen/specimen.ts';
import type { Dimension } from '../../../core/quantity/units.ts';
import { Choice, Field } from '../../design/field.tsx';
import { units } from '../../store/view-settings.ts';
import { words } from '../../words/words.ts';
import { SelectField } from '../set/select-field.tsx';
import { WordSelect } from '../set/word-select.tsx';
import {
  type ChosenEntries,
  type DraftFaults,
  type EvaluationDraft,
  SLOPE_WAYS,
  type TypedEntry,
  unitIfMissing,
} from './evaluation-draft.ts';
import { TableEntries } from './table-entries.tsx';

export interface EntriesProps {
  readonly draft: EvaluationDraft;
  readonly faults: DraftFaults;
  readonly kind: Geometry['kind'];
  readonly hasTravel: boolean;
  readonly onChange: (draft: EvaluationDraft) => void;
  /** The picture of the elastic part, where a curve can be drawn. */
  readonly slopePlot?: ComponentChildren;
  /** The choice of another readout profile, where the record has lines. */
  readonly lineFormats?: ComponentChildren;
  /** The choice of another plan, where the pull was imported from a file. */
  readonly filePlan?: ComponentChildren;
  /** The choice of other rules; absent until it is known whether the pull is in a set. */
  readonly rules?: ComponentChildren;
}

/** Typed entries that ask for values; the group stands open where one says something. */
const OF_VALUES = [
  'offsets',
  'extensionsUnderLoad',
  'required',
  'convertElongation',
  'hardeningFrom',
  'hardeningTo',
  'lastReading',
] as const satisfies readonly TypedEntry[];

export function OptionEntries(props: EntriesProps) {
  const { draft, faults, kind, hasTravel, onChange, slopePlot, lineFormats, filePlan, rules } = props;
  const text = words.value.evaluation;
  const { chosen, tables } = draft;
  const choose = (change: Partial<ChosenEntries>) => onChange({ ...draft, chosen: { ...chosen, ...change } });
  const fromTravel = chosen.strainFrom === 'travel';
  const typed = (entry: TypedEntry, label: string, hint?: string) => (
    <Field
      key={entry}
      id={`evaluation-${entry}`}
      label={label}
      hint={hint}
      number
      value={draft.typed[entry]}
      lengthMax={NAME_LENGTH_MAX}
      fault={faults.get(entry)}
      onInput={(value) => onChange({ ...draft, typed: { ...draft.typed, [entry]: value } })}
    />
  );
  const unitHint = (dimension: Dimension): string | undefined => {
    const unit = unitIfMissing(dimension, units.value).unitIfMissing;
    return unit === undefined ? undefined : text.unitHint(unit);
  };
  return (
    <div class="evaluation-groups">
      <Group name={text.groups.slope} open={draft.chosen.slope !== 'program' || chosen.toe === 'record'}>
        <Choice
          name={text.slope}
          showName
          value={chosen.slope}
          options={SLOPE_WAYS.map((value) => ({ value, label: text.slopeWays[value] }))}
          onChoose={(slope) => choose({ slope })}
        />
        {chosen.slope === 'loop' ? null : slopePlot}
        {/* Beneath the picture: they come with the first drag in it, and must not move it under the hand. */}
        {chosen.slope === 'window' ? (
          <div class="entry-row">
            {typed('slopeLower', text.slopeLower, unitHint('stress'))}
            {typed('slopeUpper', text.slopeUpper, unitHint('stress'))}
          </div>
        ) : null}
        <Choice
          name={text.toe}
          showName
          value={chosen.toe}
          options={(['compensated', 'record'] as const).map((value) => ({
            value,
            label: text.toeWays[value],
          }))}
          onChoose={(toe) => choose({ toe })}
        />
      </Group>
      {lineFormats === undefined ? null : (
        <Group name={text.groups.lines} open={draft.lineFormat !== null}>
          {lineFormats}
        </Group>
      )}
      {filePlan === undefined ? null : (
        <Group name={text.groups.file} open={draft.importPlan !== null}>
          {filePlan}
        </Group>
      )}
      {rules === undefined ? null : (
        <Group name={text.groups.rules} open={draft.judgedBy !== null}>
          {rules}
        </Group>
      )}
      <Group name={text.groups.corrections} open={saysCorrections(draft)}>
        {hasTravel ? (
          <Choice
            name={text.strainFrom}
            showName
            value={chosen.strainFrom}
            options={(['extensometer', 'travel'] as const).map((value) => ({
              value,
              label: text.strainWays[value],
            }))}
            onChoose={(strainFrom) => choose({ strainFrom })}
          />
        ) : null}
        <div class="entry-row">
          {typed('forceZero', text.forceZero, text.zeroHint)}
          {fromTravel
            ? typed('travelZero', text.travelZero, text.zeroHint)
            : typed('extensionZero', text.extensionZero, text.zeroHint)}
        </div>
        <TableEntries
          draft={draft}
          entries={['forceTable', fromTravel ? 'frameCompliance' : 'extensionTable']}
          onChange={onChange}
        />
      </Group>
      <Group name={text.groups.values} open={OF_VALUES.some((entry) => draft.typed[entry] !== '')}>
        <div class="entry-row">
          {typed('offsets', text.offsets, text.percentHint)}
          {typed('extensionsUnderLoad', text.extensionsUnderLoad, text.percentHint)}
          {typed('required', text.required, '%')}
        </div>
        <div class="entry-row">
          <SelectField
            id="evaluation-material-kind"
            label={text.materialKind}
            value={chosen.materialKind}
            options={(['none', ...MATERIAL_KINDS] as const).map((value) => ({
              value,
              label: text.materialKinds[value],
            }))}
            onChoose={(value) => choose({ materialKind: value as ChosenEntries['materialKind'] })}
          />
          {chosen.materialKind === 'none'
            ? null
            : typed('convertElongation', text.convertElongation, unitHint('length'))}
        </div>
        <div class="entry-row">
          {typed('hardeningFrom', text.hardeningFrom, text.hardeningHint)}
          {typed('hardeningTo', text.hardeningTo, text.hardeningHint)}
          {typed('lastReading', text.lastReading, text.lastReadingHint)}
        </div>
      </Group>
      <Group
        name={text.groups.section}
        open={
          chosen.section !== 'mean' ||
          chosen.sectionForm !== 'arc' ||
          chosen.finalSection !== 'auto' ||
          chosen.rounding !== 'auto'
        }
      >
        <div class="entry-row">
          <WordSelect
            id="evaluation-section"
            label={text.section}
            value={chosen.section}
            choices={SECTION_RULES}
            names={text.sections}
            onChoose={(section) => choose({ section })}
          />
          {kind === 'pipe-strip' ? (
            <WordSelect
              id="evaluation-section-form"
              label={text.sectionForm}
              value={chosen.sectionForm}
              choices={ARC_FORMS}
              names={text.sectionForms}
              onChoose={(sectionForm) => choose({ sectionForm })}
            />
          ) : null}
          {kind === 'flat' ? (
            <WordSelect
              id="evaluation-neck"
              label={text.finalSection}
              value={chosen.finalSection}
              choices={['auto', ...FINAL_SECTION_FORMS]}
              names={text.finalSections}
              onChoose={(finalSection) => choose({ finalSection })}
            />
          ) : null}
          <WordSelect
            id="evaluation-rounding"
            label={text.rounding}
            value={chosen.rounding}
            choices={['auto', ...ROUNDING_RULES]}
            names={text.roundings}
            onChoose={(rounding) => choose({ rounding })}
          />
        </div>
      </Group>
      <Group
        name={text.groups.measuring}
        open={
          chosen.readoutClass !== 'auto' ||
          chosen.extensometerClass !== 'auto' ||
          draft.typed.readoutResolution !== '' ||
          draft.typed.readoutUncertainty !== ''
        }
      >
        <div class="entry-row">
          <SelectField
            id="evaluation-readout-class"
            label={text.readoutClass}
            value={chosen.readoutClass}
            options={classes(FORCE_CLASSES, 'ISO 7500-1')}
            onChoose={(value) => choose({ readoutClass: value as ChosenEntries['readoutClass'] })}
          />
          {typed('readoutUncertainty', text.readoutUncertainty, text.readoutUncertaintyHint)}
          {typed('readoutResolution', text.readoutResolution)}
          <SelectField
            id="evaluation-extensometer-class"
            label={text.extensometerClass}
            value={chosen.extensometerClass}
            options={classes(EXTENSOMETER_CLASSES, 'ISO 9513')}
            onChoose={(value) => choose({ extensometerClass: value as ChosenEntries['extensometerClass'] })}
          />
        </div>
      </Group>
    </div>
  );

  function saysCorrections({ typed: t }: EvaluationDraft): boolean {
    return (
      fromTravel ||
      [t.forceZero, t.extensionZero, t.travelZero].some((entry) => entry !== '') ||
      Object.keys(tables).length > 0
    );
  }
}

const classes = (figures: readonly string[], standard: string) => {
  const text = words.value.evaluation;
  return [
    { value: 'auto', label: text.classAuto },
    ...figures.map((value) => ({ value, label: text.classOf(value, standard) })),
  ];
};

/** Open from the start where it says something; what a person opened or closed stays so. */
function Group({
  name,
  open,
  children,
}: {
  readonly name: string;
  readonly open: boolean;
  readonly children: ComponentChildren;
}) {
  return (
    <details class="evaluation-group" open={open ? true : undefined}>
      <summary>
        <h3>{name}</h3>
      </summary>
      <div class="evaluation-entries">{children}</div>
    </details>
  );
}
