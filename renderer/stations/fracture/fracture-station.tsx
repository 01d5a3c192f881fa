/** Fracture: where it broke, on the drawing or by its name, and what it looks like. A correction keeps the note before. */
import { type Signal, signal, useSignal } from '@preact/signals';
import { useEffect, useLayoutEffect } from 'preact/hooks';
import { FRACTURE_PLACES } from '../../../core/contract/record.ts';
import type { KeptPull } from '../../../core/contract/pull-requests.ts';
import { standingNote } from '../../../core/pull/standing-note.ts';
import { readSpecimen } from '../../../core/specimen/read-specimen.ts';
import { Button } from '../../design/button.tsx';
import type { FracturePlace } from '../../design/drawing/places.ts';
import { SpecimenDrawing } from '../../design/drawing/specimen-drawing.tsx';
import { FaultBlock, Field, FieldFault } from '../../design/field.tsx';
import { say } from '../../design/said.tsx';
import { momentText } from '../../numbers/format.ts';
import { PersonField } from '../../people/person-field.tsx';
import { errand } from '../../store/errand.ts';
import type { OpenedPull } from '../../store/kept-pull.ts';
import { HeldTyping, useHeldTyping } from '../../store/held-typing.ts';
import { rememberSteps } from '../../store/taken-back.ts';
import { goTo } from '../../store/place.ts';
import { heldOpen, request, session } from '../../store/session-store.ts';
import { language, units } from '../../store/view-settings.ts';
import { PullPhotos } from '../../trail/pull-photos.tsx';
import { words } from '../../words/words.ts';
import { endedPull } from '../opened-pull.ts';
import { WayOn, isOfJob, kindOf, noteBegunInArchive } from '../marked-step.tsx';
import { NoPull } from '../no-pull.tsx';
import { RunningRecord, goesOnFromHere } from '../pull/running-record.tsx';
import { drawingLabels, sectionRatio } from '../specimen/drawing-labels.ts';
import {
  type DetailsDraft,
  FractureDetails,
  detailsOf,
  metalsOf,
  noteOfDetails,
} from './fracture-details.tsx';
import { AfterFracture } from './after-fracture.tsx';
import '../station.css';
import './fracture-station.css';

export function FractureStation() {
  const text = words.value.fracture;
  const opened = endedPull.value;
  const kept = opened?.kept.value ?? null;
  if (opened === null || kept === null)
    return (
      <div class="station">
        <FaultBlock fault={opened?.fault.value ?? null} />
        {opened === null ? (
          <NoPull none={text.noPull} stillRecording={text.stillRecording} />
        ) : opened.fault.value === null ? (
          <p class="empty">{words.value.readout.opening}</p>
        ) : null}
      </div>
    );
  return (
    <div class="station">
      <RunningRecord />
      <FractureNote opened={opened} kept={kept} />
    </div>
  );
}

const saving = errand();

/** By pull and by the note that stands: what is typed corrects that one. */
const held = new HeldTyping<{
  readonly place: Signal<FracturePlace | null>;
  readonly appearance: Signal<string>;
  readonly remarks: Signal<string>;
  readonly by: Signal<string>;
  readonly details: Signal<DetailsDraft>;
  readonly reason: Signal<string>;
}>('fracture');

export function FractureNote({ opened, kept }: { readonly opened: OpenedPull; readonly kept: KeptPull }) {
  const text = words.value.fracture;
  const standing = standingNote(kept.fractureNotes);
  const subject = `${String(kept.pullId)} ${String(standing?.fractureNoteId ?? null)}`;
  const typed = useHeldTyping(held, subject, () => ({
    place: signal<FracturePlace | null>(standing?.note.place ?? null),
    appearance: signal(standing?.note.appearance ?? ''),
    remarks: signal(standing?.note.remarks ?? ''),
    by: signal(standing?.by ?? kept.operator ?? ''),
    details: signal(detailsOf(standing?.note)),
    reason: signal(''),
  }));
  const { place, appearance, remarks, by, details, reason } = typed;
  const tried = useSignal(false);
  useEffect(() => {
    tried.value = false;
    return rememberSteps({ place, appearance, remarks, by, details, reason }, () => true);
  }, [typed]);

  const read = readSpecimen(kept.specimen.specimen);
  const changed =
    place.value !== (standing?.note.place ?? null) ||
    appearance.value.trim() !== (standing?.note.appearance ?? '') ||
    remarks.value.trim() !== (standing?.note.remarks ?? '') ||
    JSON.stringify(noteOfDetails(details.value, place.value)) !==
      JSON.stringify(noteOfDetails(detailsOf(standing?.note), standing?.note.place));
  const reasonMissing = standing !== null && reason.value.trim() === '';

  const begunInArchive = !isOfJob() && changed;
  useLayoutEffect(() => {
    noteBegunInArchive.value = begunInArchive;
    return () => void (noteBegunInArchive.value = false);
  }, [begunInArchive]);

  const save = async () => {
    tried.value = true;
    if (place.value === null || (standing !== null && reasonMissing)) {
      say(place.value === null ? text.choose : words.value.specimen.reasonNeeded);
      return;
    }
    const note = {
      place: place.value,
      ...(appearance.value.trim() === '' ? {} : { appearance: appearance.value.trim() }),
      ...(remarks.value.trim() === '' ? {} : { remarks: remarks.value.trim() }),
      ...noteOfDetails(details.value, place.value),
    };
    const saved = await saving.run(() =>
      request('pull.note-fracture', {
        pullId: kept.pullId,
        note,
        ...(by.value.trim() === '' ? {} : { by: by.value.trim() }),
        ...(standing === null ? {} : { supersedes: standing.fractureNoteId, reason: reason.value.trim() }),
      }),
    );
    if (saved === null) return;
    held.letGo(subject);
    await opened.refresh();
    say(`${text.kept}: ${text.places[note.place]}`);
  };

  return (
    <>
      <div class="block">
        <h2>
          {text.title}: {kept.specimenName}
        </h2>
        <p class="pencil">{text.ask}</p>
        <div class="fracture-drawing">
          <SpecimenDrawing
            kind={kept.specimen.specimen.geometry.kind}
            labels={read.ok ? drawingLabels(read.specimen, units.value, language.value) : {}}
            sectionRatio={read.ok ? sectionRatio(read.specimen.geometry) : null}
            broke={place.value}
            onPlace={(chosen, side) => {
              place.value = chosen;
              if (metalsOf(kept.pullId).length > 1)
                details.value = { ...details.value, baseMetal: side === 'left' ? 1 : 2 };
            }}
          />
        </div>
        <fieldset>
          <legend class="heard">{text.title}</legend>
          <div class="places">
            {FRACTURE_PLACES.map((option) => (
              <label key={option}>
                <input
                  type="radio"
                  name="fracture-place"
                  value={option}
                  checked={place.value === option}
                  onChange={() => (place.value = option)}
                />
                <strong>{text.places[option]}</strong>
                <span class="hint">{text.placesMean[option]}</span>
              </label>
            ))}
          </div>
          <FieldFault id="place-fault" sentence={tried.value && place.value === null ? text.choose : null} />
        </fieldset>
        <div class="note-fields">
          <Field
            label={text.appearance}
            hint={text.appearanceHint}
            list="fracture-appearances"
            value={appearance.value}
            onInput={(value) => (appearance.value = value)}
          />
          <Field label={text.remarks} value={remarks.value} onInput={(value) => (remarks.value = value)} />
          <PersonField label={text.by} value={by.value} onInput={(value) => (by.value = value)} />
          {standing !== null && changed ? (
            <Field
              label={text.reason}
              value={reason.value}
              fault={tried.value && reasonMissing ? words.value.specimen.reasonNeeded : null}
              onInput={(value) => (reason.value = value)}
            />
          ) : null}
        </div>
        <FractureDetails
          pullId={kept.pullId}
          place={place.value}
          details={details.value}
          onChange={(next) => (details.value = next)}
        />
        <FaultBlock fault={saving.fault.value} />
        {heldOpen.value && session.value?.pull?.pullId === kept.pullId ? (
          <p class="pencil">{words.value.heldOpen.noteCloses}</p>
        ) : null}
        <div class="actions next-step">
          {standing === null || changed ? (
            <Button
              kind={
                isOfJob()
                  ? kindOf(standing === null ? 'fracture' : 'result')
                  : begunInArchive
                    ? 'call'
                    : 'plain'
              }
              id="keep-fracture"
              onPress={() => void save()}
            >
              {standing === null ? text.save : text.correct}
            </Button>
          ) : isOfJob() ? (
            <Button kind={kindOf('result')} id="to-result" onPress={() => goTo('result')}>
              {text.toResult}
            </Button>
          ) : null}
          {isOfJob() ? <WayOn beside={['result', ...(goesOnFromHere() ? (['pull'] as const) : [])]} /> : null}
        </div>
      </div>
      <AfterFracture opened={opened} kept={kept} />
      <PullPhotos pullId={kept.pullId} />
      {kept.fractureNotes.length < 2 ? null : (
        <section class="block">
          <h2>{text.earlier}</h2>
          <ul>
            {kept.fractureNotes
              .filter((n) => n.fractureNoteId !== standing?.fractureNoteId)
              .map((n) => (
                <li key={n.fractureNoteId} class="pencil">
                  {momentText(n.wallMs)} · {n.by ?? ''} · {text.places[n.note.place]}
                  {n.note.appearance === undefined ? '' : ` · ${n.note.appearance}`}
                </li>
              ))}
          </ul>
        </section>
      )}
    </>
  );
}
