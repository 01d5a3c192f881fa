/** The forms in which a picture is saved, in one row beneath what they are for; beside it where it is one of several pictures. */
import type { PictureForm } from '../../core/contract/picture-requests.ts';
import { Button } from '../design/button.tsx';
import { words } from '../words/words.ts';
import './save-as.css';

export function SaveAs({
  id,
  label,
  isBeside = false,
  notNow,
  onSave,
}: {
  /** Each button's is this one with its form behind it. */
  readonly id: string;
  /** Names the picture where there are several: "Save the difference as". */
  readonly label?: string;
  /** In a row with its name, beneath a picture. */
  readonly isBeside?: boolean;
  readonly notNow: string | undefined;
  readonly onSave: (form: PictureForm) => void;
}) {
  const said = label ?? words.value.look.saveAs;
  return (
    <div class="save-as" data-beside={isBeside}>
      <span class="field-label">{said}</span>
      <div>
        {(['svg', 'png', 'pdf'] as const).map((form) => (
          <Button
            key={form}
            kind="compact"
            id={`${id}-${form}`}
            name={`${said} ${form.toUpperCase()}`}
            notNow={notNow}
            onPress={() => onSave(form)}
          >
            {form.toUpperCase()}
          </Button>
        ))}
      </div>
    </div>
  );
}
