/** One field to find by, filters that open below it, searches that were kept, and which columns the table shows. */
import { useSignal } from '@preact/signals';
import { FOUND_VERDICTS, GEOMETRIES, type SearchQuery } from '../../core/contract/search-requests.ts';
import { FRACTURE_PLACES } from '../../core/contract/record.ts';
import { typedDay } from '../../core/calendar-day.ts';
import { NAME_LENGTH_MAX } from '../../core/limits.ts';
import { Button } from '../design/button.tsx';
import { DateField } from '../design/date-field.tsx';
import { Field } from '../design/field.tsx';
import { say } from '../design/said.tsx';
import { displayUnit } from '../numbers/display-unit.ts';
import { dayInWords } from '../numbers/format.ts';
import { language, units } from '../store/view-settings.ts';
import { SelectField } from '../stations/set/select-field.tsx';
import { words } from '../words/words.ts';
import { FOUND_COLUMNS, columns, draft, forget, save, saved } from './found-pulls.ts';
import { columnName } from './found-table.tsx';
import { EMPTY_SEARCH, type SearchDraft, draftOf, filtersSet, readDay } from './search-draft.ts';

export interface SearchBarProps {
  /** The field that can't be read yet. */
  readonly wrong: keyof SearchDraft | null;
  /** Null while a field can't be read. */
  readonly query: SearchQuery | null;
}

export function SearchBar({ wrong, query }: SearchBarProps) {
  const set = filtersSet(draft.value);
  const text = words.value.find;
  return (
    <div class="search-bar">
      <div
        onKeyDown={(event) => {
          if (event.key !== 'ArrowDown' && event.key !== 'Enter') return;
          event.preventDefault();
          document.getElementById('found-pulls')?.focus();
        }}
      >
        <Field
          id="archive-search"
          label={words.value.archive.search}
          hint={text.hint}
          value={draft.value.text}
          lengthMax={NAME_LENGTH_MAX}
          onInput={(value) => (draft.value = { ...draft.value, text: value })}
        />
      </div>
      <details class="filters">
        <summary>{set === 0 ? text.filters : text.filtersSet(String(set))}</summary>
        <Filters wrong={wrong} />
      </details>
      <details class="filters">
        <summary>{text.saved}</summary>
        <Saved query={query} />
      </details>
      <details class="filters">
        <summary>{text.columns}</summary>
        <div class="checks">
          {FOUND_COLUMNS.map((column) => (
            <label key={column}>
              <input
                type="checkbox"
                checked={columns.value.includes(column)}
                // Without the name nothing could be opened.
                disabled={column === 'specimen'}
                onChange={() =>
                  (columns.value = FOUND_COLUMNS.filter(
                    (one) => columns.value.includes(one) !== (one === column),
                  ))
                }
              />
              {columnName(column)}
            </label>
          ))}
        </div>
      </details>
    </div>
  );
}

function Filters({ wrong }: { readonly wrong: keyof SearchDraft | null }) {
  const text = words.value.find;
  const now = draft.value;
  const change = (part: Partial<SearchDraft>): void => {
    draft.value = { ...draft.value, ...part };
  };
  const field = (name: 'set' | 'rules' | 'baseMetal' | 'filler') => (
    <Field
      label={text[name]}
      value={now[name]}
      lengthMax={NAME_LENGTH_MAX}
      onInput={(value) => change({ [name]: value })}
    />
  );
  const day = (name: 'fromDay' | 'toDay', label: string) => (
    <DateField
      label={label}
      hint={dayInWords(typedDay(now[name])?.day ?? '', language.value) || text.dayForm}
      value={now[name]}
      fault={faultOfDay(now, name, wrong)}
      onInput={(value) => change({ [name]: value })}
    />
  );
  const strength = (name: 'strengthMin' | 'strengthMax') => (
    <Field
      label={text[name]}
      hint={displayUnit('stress', units.value)}
      value={now[name]}
      number
      fault={wrong === name ? '✕' : null}
      onInput={(value) => change({ [name]: value })}
    />
  );
  const check = (name: 'questionable' | 'interrupted' | 'voided') => (
    <label>
      <input type="checkbox" checked={now[name]} onChange={() => change({ [name]: !now[name] })} />
      {text[name]}
    </label>
  );
  const outcomes = words.value.set.outcomes;
  return (
    <div class="filter-fields">
      {day('fromDay', text.from)}
      {day('toDay', text.to)}
      {field('set')}
      {field('rules')}
      {field('baseMetal')}
      {field('filler')}
      <SelectField
        label={text.geometry}
        value={now.geometry}
        options={[
          { value: '', label: text.any },
          ...GEOMETRIES.map((value) => ({ value, label: text.geometries[value] })),
        ]}
        onChoose={(value) => change({ geometry: value })}
      />
      <SelectField
        label={text.broke}
        value={now.broke}
        options={[
          { value: '', label: text.any },
          ...FRACTURE_PLACES.map((value) => ({ value, label: words.value.fracture.places[value] })),
        ]}
        onChoose={(value) => change({ broke: value })}
      />
      <SelectField
        label={text.verdict}
        value={now.verdict}
        options={[
          { value: '', label: text.any },
          ...FOUND_VERDICTS.map((value) => ({
            value,
            label: value === 'not-judged' ? text.notJudged : outcomes[value],
          })),
        ]}
        onChoose={(value) => change({ verdict: value })}
      />
      {strength('strengthMin')}
      {strength('strengthMax')}
      <div class="checks">
        {check('questionable')}
        {check('interrupted')}
        {check('voided')}
      </div>
      <Button kind="compact" onPress={() => (draft.value = { ...EMPTY_SEARCH, text: now.text })}>
        {text.clear}
      </Button>
    </div>
  );
}

/** Null for a day that is read, and where there is none. */
function faultOfDay(
  now: SearchDraft,
  name: 'fromDay' | 'toDay',
  wrong: keyof SearchDraft | null,
): string | null {
  const { notADay, lastBeforeFirst } = words.value.find;
  if (readDay(now[name]) === null) return notADay;
  return wrong === name ? lastBeforeFirst : null;
}

const SAVE_AS = 'save-search-as';

function Saved({ query }: { readonly query: SearchQuery | null }) {
  const text = words.value.find;
  const name = useSignal('');
  const its = name.value.trim();
  const isKnown = saved.value.some((search) => search.name === its);
  const notNow = its === '' ? text.saveUnnamed : query === null ? text.saveUnread : undefined;
  const keep = (): void => {
    if (query === null) return;
    void save({ name: its, query });
    name.value = '';
  };
  const leave = async (search: string): Promise<void> => {
    await forget(search);
    // The button that was pressed is gone, and with it the place from which keys go on.
    document.getElementById(SAVE_AS)?.focus();
  };
  return (
    <div class="filter-fields">
      {saved.value.map((search) => (
        <span key={search.name} class="saved-search">
          <Button kind="compact" onPress={() => (draft.value = draftOf(search.query, units.value))}>
            {search.name}
          </Button>
          <button
            type="button"
            class="forget"
            aria-label={text.forget(search.name)}
            title={text.forget(search.name)}
            onClick={() => void leave(search.name)}
          >
            ✕
          </button>
        </span>
      ))}
      <div
        onKeyDown={(event) => {
          if (event.key !== 'Enter') return;
          event.preventDefault();
          if (notNow === undefined) keep();
          else say(notNow);
        }}
      >
        <Field
          id={SAVE_AS}
          label={text.saveAs}
          value={name.value}
          lengthMax={NAME_LENGTH_MAX}
          onInput={(value) => (name.value = value)}
        />
      </div>
      <Button kind="compact" notNow={notNow} onPress={keep}>
        {isKnown ? text.saveInstead : text.save}
      </Button>
    </div>
  );
}
