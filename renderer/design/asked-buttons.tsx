/** The buttons of a question: none without a sentence that says what it does to the data. */
import { Button } from './button.tsx';
import './asked-buttons.css';

/** As the texts have it. */
export interface ButtonWords {
  readonly label: string;
  readonly means: string;
}

export interface AskedButton extends ButtonWords {
  readonly onPress: () => void;
  readonly kind?: 'plain' | 'call';
  readonly id?: string;
}

/** Read before anything is pressed. */
export function WhatButtonsDo({ buttons }: { readonly buttons: readonly ButtonWords[] }) {
  return (
    <dl class="what-buttons-do">
      {buttons.map(({ label, means }) => (
        <div key={label}>
          <dt>{label}</dt>
          <dd>{means}</dd>
        </div>
      ))}
    </dl>
  );
}

export function AskedButtons({ buttons }: { readonly buttons: readonly AskedButton[] }) {
  return (
    <div class="actions">
      {buttons.map(({ label, onPress, kind, id }) => (
        <Button
          key={label}
          onPress={onPress}
          {...(kind === undefined ? {} : { kind })}
          {...(id === undefined ? {} : { id })}
        >
          {label}
        </Button>
      ))}
    </div>
  );
}
