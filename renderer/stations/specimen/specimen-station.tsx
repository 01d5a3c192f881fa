/** Specimen: identity, section, gauge length; the drawing and the area fill up as one types. */
import { useComputed } from '@preact/signals';
import { useMemo } from 'preact/hooks';
import type { Area } from '../../../core/results/area.ts';
import type { Result } from '../../../core/results/result.ts';
import type { FieldFault as SpecimenFault } from '../../../core/specimen/read-specimen.ts';
import { NAME_LENGTH_MAX } from '../../../core/limits.ts';
import { Button } from '../../design/button.tsx';
import { SoundControl } from '../../design/sound-control.tsx';
import { SpecimenDrawing } from '../../design/drawing/specimen-drawing.tsx';
import { FaultBlock, Field } from '../../design/field.tsx';
import { focusFirstFault } from '../../design/focus-fault.ts';
import { LeaveForm } from '../../design/leave-form.tsx';
import { say } from '../../design/said.tsx';
import { SymbolText } from '../../design/symbol-text.tsx';
import { WorkingBlock } from '../../design/working.tsx';
import { InstrumentChoice } from '../../instruments/chosen-instruments.tsx';
import { TYPED_READOUT, instrumentChoice } from '../../instruments/register.ts';
import { displayUnit } from '../../numbers/display-unit.ts';
import { errand } from '../../store/errand.ts';
import { goTo } from '../../store/place.ts';
import { request, session, sessionState } from '../../store/session-store.ts';
import {
  DIMENSIONS_OF_KIND,
  DIMENSION_OF,
  changeDraft,
  changeEntries,
  draft,
  draftArea,
  draftAsFile,
  draftIsKept,
  entriesOf,
  entryFault,
  leaveCorrection,
  leftDraft,
  markKept,
  newDraft,
  readDraft,
  takeBackDraft,
  withUnit,
} from '../../store/specimen-draft.ts';
import { useSteps } from '../../store/taken-back.ts';
import { language, units } from '../../store/view-settings.ts';
import { tourOn } from '../../tour/tour.ts';
import { words } from '../../words/words.ts';
import { WayOn, kindOf } from '../marked-step.tsx';
import { nextSpecimen } from '../pull/pull-acts.ts';
import { endedPull, typedPullId } from '../opened-pull.ts';
import { CarriedStrip } from '../set/carried-strip.tsx';
import { carried, joinCarried } from '../set/open-set.ts';
import { drawingLabels, sectionRatio } from './drawing-labels.ts';
import { FirstRun, KeptSpecimens, keptSpecimensChanged } from './kept-specimens.tsx';
import { CorrectionBlock } from './correction-block.tsx';
import { Correction, anewWords, letGoOfReason } from './correction.ts';
import { MeasureList, focusFirstSize } from './measure-list.tsx';
import { askingOf, unansweredSizes } from './asked-sizes.ts';
import { ShapeChoice } from './shape-choice.tsx';
import type { SpecimenFile } from '../../../core/specimen/specimen-file.ts';
import '../station.css';
import './specimen-station.css';

const saving = errand();

export function SpecimenStation() {
  const text = words.value.specimen;
  const d = draft.value;
  useSteps({ instrumentsUsed: instrumentChoice });
  const correction = useMemo(() => new Correction(), []);
  const { tried } = correction;
  const missing = useComputed(() => missingFaults(draft.value.id));
  const faultOf = (field: string): string | undefined => (tried.value ? missing.value.get(field) : undefined);
  const touched = () => (saving.fault.value = null);

  const keep = async () => {
    tried.value = true;
    const { specimenId: corrected } = draft.value;
    const count = missing.value.size + (corrected !== null && correction.reason.value.trim() === '' ? 1 : 0);
    if (count > 0) {
      say(text.faultsAbove(String(count)));
      focusFirstFault('.station');
      return;
    }
    const specimen = draftAsFile(draft.value) as SpecimenFile;
    if (corrected !== null) {
      // A pull may have been made, or evaluated anew, since it was looked at.
      if ((await saving.run(() => correction.lookUp(corrected))) === null) return;
      if (!correction.isSeen(specimen)) {
        say(words.value.evaluation.workOutFirst);
        document.getElementById('show-correction')?.focus();
        return;
      }
    }
    const kept = await saving.run(() =>
      request('specimen.save', {
        specimen,
        ...(corrected === null ? {} : { supersedes: corrected, ...correction.said() }),
      }),
    );
    if (kept === null) return;
    if (corrected !== null) letGoOfReason(corrected);
    markKept(kept.specimenId);
    tried.value = false;
    keptSpecimensChanged.value++;
    // Result and verdict of the pull on the sheet rest on what was just corrected.
    if (corrected !== null) void endedPull.value?.refresh();
    const into = carried.value;
    const fault = await joinCarried(kept.specimenId);
    if (fault !== null) saving.fault.value = fault;
    else if (kept.evaluations.length > 0)
      say([text.correctionKept(draft.value.id), ...kept.evaluations.map(anewWords)].join(' '));
    else if (into === null) say(text.kept(draft.value.id));
    else say(words.value.set.carried.joined(draft.value.id, into.setName));
  };

  return (
    <div class="station split">
      <form
        class="block"
        aria-label={text.title}
        onSubmit={(event) => {
          event.preventDefault();
          void keep();
        }}
      >
        <CarriedStrip />
        <div class="identity">
          <Field
            id="specimen-identity"
            label={text.identity}
            hint={text.identityHint}
            value={d.id}
            lengthMax={NAME_LENGTH_MAX}
            fault={faultOf('id')}
            required
            onEnter={focusFirstSize}
            onInput={(id) => {
              touched();
              changeDraft({ id });
            }}
          />
        </div>
        <ShapeChoice value={d.kind} onChoose={(kind) => changeDraft({ kind })} />
        <div>
          {DIMENSIONS_OF_KIND[d.kind].map((name) => (
            <MeasureList
              key={name}
              asking={askingOf(name)}
              label={text.dimensions[name]}
              dimension={DIMENSION_OF[name]}
              entries={entriesOf(name)}
              onChange={(list) => changeEntries(name, list)}
              onTouch={touched}
              fault={faultOf(`geometry.${name}`)}
            />
          ))}
          <MeasureList
            asking={askingOf('gaugeLength')}
            label={text.gaugeLength}
            hint={text.gaugeLengthHint}
            dimension="length"
            entries={entriesOf('gaugeLength')}
            onChange={(list) => changeEntries('gaugeLength', list)}
            onTouch={touched}
            fault={faultOf('gaugeLength')}
          />
        </div>
        <p class="pencil small">
          {text.unitHint(displayUnit('length', units.value))} {words.value.calliper.hint}
        </p>
        <InstrumentChoice readout={TYPED_READOUT} kind="calliper" />
        <More />
        {draftIsKept.value || d.specimenId === null ? null : (
          <CorrectionBlock correction={correction} specimenId={d.specimenId} />
        )}
        <FaultBlock fault={saving.fault.value} />
        <div class="actions next-step">
          <WayOn beside={draftIsKept.value ? ['readout', 'pull'] : []} />
          {draftIsKept.value ? (
            <>
              {(session.value?.readout ?? null) === null ? (
                <Button kind={kindOf('readout')} onPress={() => goTo('readout')}>
                  {text.toReadout}
                </Button>
              ) : (
                <Button kind={kindOf('pull')} onPress={() => goTo('pull')}>
                  {words.value.set.toPull}
                </Button>
              )}
              <Button kind={kindOf('specimen')} id="another-specimen" onPress={anotherSpecimen}>
                {text.another}
              </Button>
              <span class="kept-sign">
                <svg width="18" height="18" viewBox="0 0 18 18" aria-hidden="true">
                  <path d="m2 9 5 6L16 3" fill="none" stroke="var(--ink)" stroke-width="2.6" />
                </svg>
                {text.kept(d.id)}
              </span>
            </>
          ) : (
            <Button kind={kindOf('specimen')} id="keep-specimen" onPress={() => void keep()}>
              {d.specimenId === null ? text.save : text.saveCorrection}
            </Button>
          )}
          {draftIsKept.value || d.specimenId === null ? null : (
            <LeaveForm
              id="leave-correction"
              isTyped
              onPress={() => {
                tried.value = false;
                if (d.specimenId !== null) letGoOfReason(d.specimenId);
                leaveCorrection();
              }}
            />
          )}
        </div>
        {leftDraft.value === null || tourOn.value ? null : (
          <p class="pencil small">
            <Button kind="compact" id="take-back-draft" onPress={takeBackDraft}>
              {words.value.undo.takeBack(leftDraft.value.id)}
            </Button>{' '}
            {words.value.undo.means}
          </p>
        )}
        <KeptSpecimens />
      </form>
      <div class="block specimen-sheet">
        <Drawing />
        <AreaWorking />
        <FirstRun />
      </div>
    </div>
  );
}

/** A pull that has ended is put away first: the next specimen's isn't made behind it. */
function anotherSpecimen(): void {
  if (sessionState.value === 'ended' || typedPullId.value !== null) void nextSpecimen();
  else newDraft();
}

/** What keeps the draft from being kept, by field. */
function missingFaults(id: string): ReadonlyMap<string, string> {
  const text = words.value.specimen;
  const faults = new Map<string, string>();
  if (id.trim() === '') faults.set('id', text.identityNeeded);
  for (const name of DIMENSIONS_OF_KIND[draft.value.kind]) {
    if (entriesOf(name).every((entry) => entry.trim() === ''))
      faults.set(`geometry.${name}`, text.measurementNeeded);
  }
  const read = readDraft.value;
  if (!read.ok) for (const fault of read.faults) note(faults, fault);
  for (const [field, sentence] of unansweredSizes()) if (!faults.has(field)) faults.set(field, sentence);
  return faults;
}

/** Faults of single entries stand beside their list; the first one of a dimension is enough. */
function note(faults: Map<string, string>, fault: SpecimenFault): void {
  const field = fault.field.replace(/\[\d+\]$/, '');
  if (!faults.has(field)) faults.set(field, fault.sentence.replace(/^[\w.[\]]+: /, ''));
}

function More() {
  const text = words.value.specimen;
  const d = draft.value;
  const length = (key: 'extensometerGaugeLength' | 'parallelLength', label: string, hint: string) => (
    <Field
      label={label}
      hint={hint}
      number
      value={d[key]}
      fault={entryFault(d[key], 'length')}
      onInput={(value) => changeDraft({ [key]: value })}
      onLeave={() => changeDraft({ [key]: withUnit(draft.value[key], 'length', units.value) })}
    />
  );
  return (
    <details>
      <summary>{text.more}</summary>
      <div class="more-fields">
        {length('extensometerGaugeLength', text.extensometerGaugeLength, text.extensometerHint)}
        {length('parallelLength', text.parallelLength, text.parallelHint)}
        <Field label={text.notes} lines value={d.notes} onInput={(notes) => changeDraft({ notes })} />
        <p class="pencil small">{words.value.calliper.beep}</p>
        <SoundControl />
      </div>
    </details>
  );
}

function Drawing() {
  const read = readDraft.value;
  return (
    <SpecimenDrawing
      kind={draft.value.kind}
      labels={read.ok ? drawingLabels(read.specimen, units.value, language.value) : {}}
      sectionRatio={read.ok ? sectionRatio(read.specimen.geometry) : null}
    />
  );
}

/** The unrounded area in the unit in which the shop's rounded one stands. */
const inShopUnit = ({ result, shop }: Area): Result => ({
  ...result,
  value: shop.unrounded,
  unit: shop.unit,
});

function AreaWorking() {
  const text = words.value.specimen;
  const outcome = draftArea.value;
  return (
    <section class="block" aria-label={text.area}>
      <h2>
        <SymbolText text={text.area} />
      </h2>
      {outcome === null ? (
        <p class="empty">{text.areaWaits}</p>
      ) : outcome.ok ? (
        <WorkingBlock result={inShopUnit(outcome.area)} />
      ) : (
        <p class="field-fault">{outcome.withheld.reason}</p>
      )}
    </section>
  );
}
