/** A field in which one writes what one wants to do: it is found by plain words, with its keys, or why it can't be done now. */
import { useSignal } from '@preact/signals';
import { useEffect, useId, useRef } from 'preact/hooks';
import { useModal } from '../design/modal.ts';
import { say } from '../design/said.tsx';
import { PLACES, place } from '../store/place.ts';
import { words } from '../words/words.ts';
import { doingShown } from './doing-shown.ts';
import { type Named, findThings } from './find-thing.ts';
import { capOf } from '../keys/key-caps.ts';
import { THINGS, type Thing, shownKeys } from './functions.ts';
import './doing-field.css';

/** Longer than anything that has a name here. */
const WRITTEN_LENGTH_MAX = 80;

export function DoingField() {
  return doingShown.value ? <Asked /> : null;
}

export function namedThing({ id }: Thing): Named {
  const text = words.value.doing.things[id];
  if ('name' in text) return text;
  return { name: words.value.doing.goTo(placeOf(id) ?? id), also: text.also };
}

/** Its name, and what it would act on now. */
export function labelOf(thing: Thing): string {
  const { name } = namedThing(thing);
  const about = thing.about?.();
  return about === undefined ? name : `${name}: ${about}`;
}

/** The name of the place that it leads to and does nothing else; null for everything else. */
export function placeOf(id: Thing['id']): string | null {
  const where = PLACES.find((place) => id === `go-${place}`);
  return where === undefined ? null : words.value.stations[where];
}

/** All but the field itself, which is open. */
const OFFERED = THINGS.filter(({ id }) => id !== 'what-to-do');

function Asked() {
  const text = words.value.doing;
  const list = useRef<HTMLUListElement>(null);
  const id = useId();
  const written = useSignal('');
  const chosen = useSignal(0);
  const close = () => (doingShown.value = false);
  const modal = useModal(close);
  const begun = useRef(place.value);
  useEffect(() => {
    if (place.value !== begun.current) close();
  }, [place.value]);

  // What can be done now comes first, and of that what belongs to the present page.
  const rank = (thing: Thing): number =>
    (thing.notNow?.() === undefined ? 0 : 2) + (thing.at === place.value ? 0 : 1);
  const offered = OFFERED.toSorted((a, b) => rank(a) - rank(b));
  const found = findThings(written.value, offered, namedThing);
  const at = Math.min(chosen.value, found.length - 1);
  useEffect(() => {
    list.current?.querySelector('[aria-selected="true"]')?.scrollIntoView({ block: 'nearest' });
  }, [at, written.value]);

  const doIt = (thing: Thing | undefined): void => {
    if (thing === undefined) return;
    const reason = thing.notNow?.();
    if (reason !== undefined) {
      say(reason);
      return;
    }
    modal.onClose();
    void thing.run();
  };
  return (
    <dialog {...modal} class="doing" aria-labelledby={`${id}-title`}>
      <label id={`${id}-title`} for={`${id}-field`}>
        {text.title}
      </label>
      <input
        id={`${id}-field`}
        class="doing-entry"
        type="text"
        role="combobox"
        aria-expanded="true"
        aria-autocomplete="list"
        aria-controls={`${id}-list`}
        aria-activedescendant={at < 0 ? undefined : `${id}-${String(at)}`}
        aria-describedby={`${id}-hint`}
        autocomplete="off"
        spellcheck={false}
        maxLength={WRITTEN_LENGTH_MAX}
        value={written.value}
        onInput={(event) => {
          written.value = event.currentTarget.value;
          chosen.value = 0;
        }}
        onKeyDown={(event) => {
          if (event.ctrlKey || event.altKey || event.metaKey || event.isComposing) return;
          if (event.key === 'Enter') {
            if (!event.repeat) doIt(found[at]);
          } else if (event.key === 'ArrowDown') chosen.value = Math.min(found.length - 1, at + 1);
          else if (event.key === 'ArrowUp') chosen.value = Math.max(0, at - 1);
          else return;
          event.preventDefault();
        }}
      />
      <p id={`${id}-hint`} class="pencil small">
        {text.hint}
      </p>
      <p class="heard" role="status">
        {written.value.trim() === '' ? '' : text.count(String(found.length))}
      </p>
      {found.length === 0 ? <p class="empty">{text.nothing(written.value.trim())}</p> : null}
      <ul ref={list} id={`${id}-list`} class="doing-list" role="listbox" aria-label={text.list}>
        {found.map((thing, index) => {
          const reason = thing.notNow?.();
          return (
            <li
              key={thing.id}
              id={`${id}-${String(index)}`}
              role="option"
              aria-selected={index === at}
              aria-disabled={reason === undefined ? undefined : true}
              data-thing={thing.id}
              // The field keeps the cursor.
              onPointerDown={(event) => event.preventDefault()}
              onClick={() => doIt(thing)}
            >
              <span class="doing-name">{labelOf(thing)}</span>
              {shownKeys(thing).length === 0 ? null : (
                <span class="doing-keys">
                  {shownKeys(thing).map((key) => (
                    <kbd key={key}>{capOf(key)}</kbd>
                  ))}
                </span>
              )}
              {reason === undefined ? null : (
                <span class="doing-not-now small">
                  {text.notNow}: {reason}
                </span>
              )}
            </li>
          );
        })}
      </ul>
    </dialog>
  );
}
