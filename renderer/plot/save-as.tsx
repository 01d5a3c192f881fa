/** The forms in which a picture is saved, in one row beneath what they are for. */
import type { PictureForm } from '../../core/contract/picture-requests.ts';
import { Button } from '../design/button.tsx';
import { words } from '../words/words.ts';
import './save-as.css';

export function SaveAs({
  id,
  notNow,
  onSave,
}: {
  /** Each button's is this one with its form behind it. */
  readonly id: string;
  readonly notNow: string | undefined;
  readonly onSave: (form: PictureForm) => void;
}) {
  const { saveAs, saveAsForm } = words.value.look;
  return (
    <div class="save-as">
      <span class="field-label">{saveAs}</span>
      <div>
        {(['svg', 'png', 'pdf'] as const).map((form) => (
          <Button
            key={form}
            kind="compact"
            id={`${id}-${form}`}
            name={saveAsForm(form.toUpperCase())}
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
