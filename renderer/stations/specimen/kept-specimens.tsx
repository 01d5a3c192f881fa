/** Specimens that are kept already, to be taken up again. */
import { computed, signal, useSignal } from '@preact/signals';
import { useEffect } from 'preact/hooks';
import type { Fault } from '../../../core/contract/index.ts';
import type { ListedSpecimen } from '../../../core/contract/specimen-requests.ts';
import { Button } from '../../design/button.tsx';
import { FaultBlock } from '../../design/field.tsx';
import { FindKept, searchFor, typedName } from '../find-kept.tsx';
import { fixed, momentText } from '../../numbers/format.ts';
import { HeldAnswer } from '../../store/held-answer.ts';
import { archiveGeneration, request, session } from '../../store/session-store.ts';
import { scenarios } from '../readout/scenarios.ts';
import { draft, draftFromFile, draftIsBlank, takeUp } from '../../store/specimen-draft.ts';
import { language } from '../../store/view-settings.ts';
import { beginTour, tourOn } from '../../tour/tour.ts';
import { words } from '../../words/words.ts';

/** As many as can be looked over; others are found by their name. */
const SHOWN_MAX = 12;

/** Grows when a specimen was kept, so that the list asks again. */
export const keptSpecimensChanged = signal(0);

const wanted = typedName();
const found = new HeldAnswer(() =>
  request('specimen.list', { limit: SHOWN_MAX, ...searchFor(wanted.peek()) }),
);

/** True once it is known that the archive holds no specimen. */
const nothingKept = computed(() => wanted.value === '' && found.value.value?.items.length === 0);

/** Nothing is kept yet: a first pull needs a specimen whose strength is known. */
export function FirstRun() {
  const text = words.value.specimen;
  const [first] = scenarios.value;
  if (!nothingKept.value || first === undefined || !draftIsBlank.value || tourOn.value) return null;
  return (
    <div class="first-run">
      <p>{text.firstRun}</p>
      <div class="actions">
        <Button kind="compact" id="take-tour" onPress={() => void beginTour()}>
          {words.value.tour.take}
        </Button>
        <Button kind="compact" id="take-demo" onPress={() => (draft.value = draftFromFile(first.specimen))}>
          {text.takeDemo}
        </Button>
      </div>
    </div>
  );
}

/** One with a pull is most likely broken. */
function pulledWords({ pulls, voidPulls }: ListedSpecimen): string[] {
  const text = words.value.specimen;
  if (pulls === 0) return voidPulls === 0 ? [] : [text.onlyVoid];
  return [pulls === 1 ? text.withPull : text.withPulls(fixed(pulls, 0, language.value))];
}

export function KeptSpecimens() {
  const text = words.value.specimen;
  const items = found.value.value?.items ?? null;
  const fault = useSignal<Fault | null>(null);
  const connected = session.value !== null;
  useEffect(() => {
    if (!connected) return;
    void found.refresh().then((why) => (fault.value = why));
  }, [connected, keptSpecimensChanged.value, archiveGeneration.value, wanted.value]);
  if (items === null) return <FaultBlock fault={fault.value} />;
  const others = items.filter((kept) => kept.specimenId !== draft.value.specimenId);
  if (nothingKept.value) return <p class="pencil">{text.noEarlier}</p>;
  const isCut = (found.value.value?.nextCursor ?? null) !== null;
  if (others.length === 0 && !isCut && wanted.value === '') return null;
  return (
    <section aria-label={text.earlier}>
      <h2 class="lesser">{text.earlier}</h2>
      <FindKept
        id="find-kept-specimen"
        label={words.value.exchange.findSpecimen}
        typed={wanted}
        isCut={isCut}
        shown={SHOWN_MAX}
        none={items.length === 0 ? words.value.exchange.noSpecimenFits : null}
      />
      <ul class="kept-list">
        {others.map((kept) => {
          const about = [
            text.shapes[kept.specimen.geometry.kind],
            momentText(kept.savedWallMs),
            ...pulledWords(kept),
          ].join(' · ');
          return (
            <li key={kept.specimenId}>
              <button
                type="button"
                aria-label={`${text.takeUp(kept.specimen.id)} ${about}`}
                onClick={() => takeUp(kept)}
              >
                <strong>{kept.specimen.id}</strong> <span class="pencil small">{about}</span>
              </button>
            </li>
          );
        })}
      </ul>
    </section>
  );
}
