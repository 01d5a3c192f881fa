/** What a worksheet states once: unit, resolution, reference, temperature, and what is asked of the one instrument only. */
import type { ComponentChildren } from 'preact';
import { useId } from 'preact/hooks';
import { Field } from '../design/field.tsx';
import { words } from '../words/words.ts';

interface StatedOnce<U extends string> {
  readonly unit: U;
  readonly resolution: string;
  readonly reference: string;
  readonly temperature: string;
}

export interface WorksheetHeadProps<U extends string> {
  readonly units: readonly U[];
  readonly stated: StatedOnce<U>;
  readonly onChange: (change: Partial<StatedOnce<U>>) => void;
  readonly beforeResolution?: ComponentChildren;
  readonly behindResolution?: ComponentChildren;
}

export function WorksheetHead<U extends string>({
  units,
  stated,
  onChange,
  beforeResolution,
  behindResolution,
}: WorksheetHeadProps<U>) {
  const text = words.value.instruments.sheet;
  const id = useId();
  return (
    <div class="entry-row">
      <div class="field">
        <label for={id}>{text.unit}</label>
        <select
          id={id}
          class="entry"
          value={stated.unit}
          onChange={(event) => {
            const unit = units.find((one) => one === event.currentTarget.value);
            if (unit !== undefined) onChange({ unit });
          }}
        >
          {units.map((one) => (
            <option key={one} value={one}>
              {one}
            </option>
          ))}
        </select>
      </div>
      {beforeResolution}
      <Field
        id="sheet-resolution"
        label={text.resolution}
        hint={text.resolutionHint}
        number
        value={stated.resolution}
        onInput={(resolution) => onChange({ resolution })}
      />
      {behindResolution}
      <Field
        label={text.reference}
        hint={text.referenceHint}
        value={stated.reference}
        onInput={(reference) => onChange({ reference })}
      />
      <Field
        label={text.temperature}
        value={stated.temperature}
        onInput={(temperature) => onChange({ temperature })}
      />
    </div>
  );
}
