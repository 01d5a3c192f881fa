/**
 * What is measured on the broken specimen. Keeping it makes a new specimen record that supersedes the newest one; the
 * result is then worked out again. Where an evaluation was kept, or sizes after the break stand already, old and new
 * values are looked at first, as of any correction. Shared by the fracture station and a pull of the archive.
 */
import { type Signal, signal, useSignal } from '@preact/signals';
import { useId, useLayoutEffect, useMemo } from 'preact/hooks';
import type { KeptPull } from '../../../core/contract/pull-requests.ts';
import type { KeptSpecimen } from '../../../core/contract/specimen-requests.ts';
import { TEXT_LENGTH_MAX } from '../../../core/limits.ts';
import { QUANTITY_TEXT_LENGTH_MAX } from '../../../core/quantity/parse-quantity.ts';
import { Button } from '../../design/button.tsx';
import { FaultBlock, Field } from '../../design/field.tsx';
import { say } from '../../design/said.tsx';
import { displayUnit } from '../../numbers/display-unit.ts';
import { momentText } from '../../numbers/format.ts';
import { PersonField } from '../../people/person-field.tsx';
import { errand } from '../../store/errand.ts';
import type { OpenedPull } from '../../store/kept-pull.ts';
import { request } from '../../store/session-store.ts';
import { followCorrection, withUnit } from '../../store/specimen-draft.ts';
import { HeldTyping, useHeldTyping } from '../../store/held-typing.ts';
import { useSteps } from '../../store/taken-back.ts';
import { units } from '../../store/view-settings.ts';
import { words } from '../../words/words.ts';
import { endedPull } from '../opened-pull.ts';
import { AskedAfterFracture } from './asked-after-fracture.ts';
import { CorrectedPulls } from '../specimen/corrected-pulls.tsx';
import { Correction, anewWords } from '../specimen/correction.ts';
import { MeasureList } from '../specimen/measure-list.tsx';
import { IntervalEntries } from './interval-entries.tsx';
import {
  type AfterFractureDraft,
  type FinalDimension,
  INTERVAL_FIELDS,
  afterFractureFaults,
  draftOf,
  finalDimensionsOf,
  saysTheSame,
  withMeasured,
} from './after-fracture-draft.ts';

const SHOW = 'show-after-fracture';

export function AfterFracture({ opened, kept }: { readonly opened: OpenedPull; readonly kept: KeptPull }) {
  const newest = opened.specimen.value;
  if (newest === null) return null;
  // Another record is another form: what was typed is in it then.
  return (
    <AfterFractureForm key={newest.specimenId} opened={opened} operator={kept.operator} newest={newest} />
  );
}

/** By the record of the specimen: another one begins with what it says. */
const held = new HeldTyping<{
  readonly draft: Signal<AfterFractureDraft>;
  readonly by: Signal<string>;
  /** Null as long as the operator has not changed it: it then follows the language. */
  readonly typedReason: Signal<string | null>;
}>('afterFracture');

interface FormProps {
  readonly opened: OpenedPull;
  readonly operator: string | null;
  readonly newest: KeptSpecimen;
}

function AfterFractureForm({ opened, operator, newest }: FormProps) {
  const text = words.value.afterFracture;
  const id = useId();
  const saving = useMemo(errand, []);
  const typed = useHeldTyping(held, newest.specimenId, () => ({
    draft: signal(draftOf(newest.specimen)),
    by: signal(operator ?? ''),
    typedReason: signal<string | null>(null),
  }));
  const { draft, by, typedReason } = typed;
  useSteps({ afterFracture: draft, by, reason: typedReason }, typed);
  const asked = useMemo(() => new AskedAfterFracture(), []);
  const correction = useMemo(() => new Correction(), []);
  useLayoutEffect(() => {
    void correction.work.run(() => correction.lookUp(newest.specimenId));
  }, []);
  const tried = useSignal(false);
  /** A distance half typed is no fault yet. */
  const distanceLeft = useSignal(false);

  const reason = typedReason.value ?? text.reasonGiven;
  const file = withMeasured(newest.specimen, draft.value);
  const unchanged = saysTheSame(newest.specimen, draft.value);
  const { faults, findings } = afterFractureFaults(file);
  const names = finalDimensionsOf(newest.specimen.geometry.kind);
  const hasMeasured = [...names, 'distanceToNearestMark' as const, 'fractureIntervals' as const].some(
    (name) => newest.specimen[name],
  );
  const nothingYet = unchanged && !hasMeasured;
  /** Something that was stated changes; sizes that nobody had measured only add to it. */
  const mustBeSeen = !unchanged && (hasMeasured || correction.supersedes);
  const countOpen = (): number =>
    faults.size +
    names.filter((name) => {
      const { about } = asked.of(newest.specimen, name);
      return draft.value.measured[name].some((entry) => about(entry) !== null);
    }).length;
  const show = () => {
    tried.value = true;
    const count = countOpen();
    if (count > 0) say(words.value.specimen.faultsAbove(String(count)));
    else void correction.workOut(newest.specimenId, file);
  };
  const touched = () => (saving.fault.value = null);

  const change = (name: FinalDimension, list: readonly string[]) =>
    (draft.value = { ...draft.value, measured: { ...draft.value.measured, [name]: list } });
  const changeDistance = (distanceToNearestMark: string) =>
    (draft.value = { ...draft.value, distanceToNearestMark });
  const faultOf = (name: FinalDimension): string | undefined => {
    if (!tried.value) return findings.get(name);
    if (nothingYet && name === 'finalGaugeLength') return text.measureFirst;
    return faults.get(name) ?? findings.get(name);
  };

  const keep = async () => {
    tried.value = true;
    const count = countOpen() + (reason.trim() === '' ? 1 : 0);
    if (nothingYet || count > 0) {
      say(nothingYet ? text.measureFirst : words.value.specimen.faultsAbove(String(count)));
      return;
    }
    // An evaluation may have been kept since it was looked at.
    if ((await saving.run(() => correction.lookUp(newest.specimenId))) === null) return;
    if (!unchanged && (hasMeasured || correction.supersedes) && !correction.isSeen(file)) {
      say(words.value.evaluation.workOutFirst);
      document.getElementById(SHOW)?.focus();
      return;
    }
    const saved = await saving.run(() =>
      request('specimen.save', {
        specimen: file,
        supersedes: newest.specimenId,
        reason: reason.trim(),
        ...(by.value.trim() === '' ? {} : { by: by.value.trim() }),
      }),
    );
    if (saved === null) return;
    held.letGo(newest.specimenId);
    await opened.refresh();
    if (opened.specimen.value !== null) followCorrection(newest.specimenId, opened.specimen.value);
    // The same pull may stand open in its station while it is corrected in the archive.
    const station = endedPull.value;
    if (station !== null && station !== opened) await station.refresh();
    say([text.kept, ...saved.evaluations.map(anewWords)].join(' '));
  };

  return (
    <section class="block after-fracture" id="after-fracture" aria-labelledby={`${id}-title`}>
      <h2 id={`${id}-title`}>{text.title}</h2>
      <p class="pencil">{text.ask}</p>
      <div>
        {names.map((name) => (
          <MeasureList
            key={name}
            label={text.dimensions[name]}
            hint={text.hints[name]}
            dimension="length"
            entries={draft.value.measured[name]}
            onChange={(list) => change(name, list.length === 0 ? [''] : list)}
            onTouch={touched}
            fault={faultOf(name)}
            asking={asked.of(newest.specimen, name)}
          />
        ))}
      </div>
      <p class="pencil small">{words.value.specimen.unitHint(displayUnit('length', units.value))}</p>
      <div class="note-fields">
        <Field
          label={text.distance}
          hint={text.distanceHint}
          number
          value={draft.value.distanceToNearestMark}
          lengthMax={QUANTITY_TEXT_LENGTH_MAX}
          fault={tried.value || distanceLeft.value ? faults.get('distanceToNearestMark') : null}
          onInput={(value) => {
            touched();
            distanceLeft.value = false;
            changeDistance(value);
          }}
          onLeave={() => {
            distanceLeft.value = true;
            changeDistance(withUnit(draft.value.distanceToNearestMark, 'length', units.value));
          }}
        />
        <PersonField label={text.by} value={by.value} onInput={(value) => (by.value = value)} />
        {unchanged ? null : (
          <Field
            label={text.reason}
            value={reason}
            lengthMax={TEXT_LENGTH_MAX}
            fault={tried.value && reason.trim() === '' ? words.value.specimen.reasonNeeded : null}
            onInput={(value) => (typedReason.value = value)}
          />
        )}
      </div>
      <IntervalEntries
        values={draft.value.intervals}
        faultOf={(entry) =>
          tried.value
            ? (faults.get(INTERVAL_FIELDS[entry]) ?? findings.get(INTERVAL_FIELDS[entry]))
            : undefined
        }
        onChange={(intervals) => {
          touched();
          draft.value = { ...draft.value, intervals };
        }}
      />
      {mustBeSeen ? <CorrectedPulls id={SHOW} correction={correction} specimen={file} onShow={show} /> : null}
      <FaultBlock fault={saving.fault.value} />
      <div class="actions">
        {unchanged && hasMeasured ? (
          <p class="pencil" role="status">
            {text.standing(momentText(newest.savedWallMs))}
          </p>
        ) : (
          <Button id="keep-after-fracture" onPress={() => void keep()}>
            {text.save}
          </Button>
        )}
      </div>
    </section>
  );
}
