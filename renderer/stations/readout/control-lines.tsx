/** How DTR and RTS are set after a port is opened; left alone unless somebody says otherwise. */
import { useId } from 'preact/hooks';
import type { ReadoutProfile } from '../../../core/contract/readout-profile.ts';
import { words } from '../../words/words.ts';

export type ControlLines = NonNullable<ReadoutProfile['controlLines']>;

export interface ControlLinesProps {
  readonly lines: ControlLines;
  readonly onChange: (lines: ControlLines) => void;
}

export function ControlLinesEntry({ lines, onChange }: ControlLinesProps) {
  const text = words.value.learn;
  return (
    <fieldset class="control-lines">
      <legend>
        {text.controlLines} <span class="hint">{text.controlLinesHint}</span>
      </legend>
      {(['dtr', 'rts'] as const).map((line) => (
        <OneLine
          key={line}
          name={line.toUpperCase()}
          value={lines[line]}
          onChange={(value) => {
            const set = { ...lines, [line]: value };
            onChange({
              ...(set.dtr === undefined ? {} : { dtr: set.dtr }),
              ...(set.rts === undefined ? {} : { rts: set.rts }),
            });
          }}
        />
      ))}
    </fieldset>
  );
}

function OneLine({
  name,
  value,
  onChange,
}: {
  readonly name: string;
  readonly value: boolean | undefined;
  readonly onChange: (value: boolean | undefined) => void;
}) {
  const text = words.value.learn;
  const id = useId();
  return (
    <div class="field">
      <label for={id}>{name}</label>
      <select
        id={id}
        class="entry"
        value={value === undefined ? '' : value ? 'on' : 'off'}
        onChange={({ currentTarget }) =>
          onChange(currentTarget.value === '' ? undefined : currentTarget.value === 'on')
        }
      >
        <option value="">{text.leave}</option>
        <option value="on">{text.on}</option>
        <option value="off">{text.off}</option>
      </select>
    </div>
  );
}

/** "DTR off, RTS on"; empty where both are left alone. */
export function controlLinesWords({ dtr, rts }: ControlLines): string {
  const text = words.value.learn;
  const one = (name: string, value: boolean | undefined): string[] =>
    value === undefined ? [] : [`${name} ${value ? text.on : text.off}`];
  return [...one('DTR', dtr), ...one('RTS', rts)].join(', ');
}
