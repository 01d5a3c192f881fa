/** Which section the specimen has: five small sections to press. */
import type { JSX } from 'preact';
import type { GeometryKind, MeasuredGeometryKind } from '../../../core/specimen/specimen-file.ts';
import { MEASURED_KINDS } from '../../store/specimen-draft.ts';
import { words } from '../../words/words.ts';
import './shape-choice.css';

const line = { fill: 'none', stroke: 'var(--ink)', 'stroke-width': 2 } as const;

const SIGNS: Readonly<Record<MeasuredGeometryKind, JSX.Element>> = {
  flat: <path d="M4 13h44v14H4Z" {...line} />,
  round: <circle cx="26" cy="20" r="14" {...line} />,
  tube: (
    <>
      <circle cx="26" cy="20" r="16" {...line} />
      <circle cx="26" cy="20" r="11" {...line} />
    </>
  ),
  'pipe-strip': <path d="M5 19a40 40 0 0 1 42 0v10a32 32 0 0 0-42 0Z" {...line} />,
  weighed: <path d="M26 5v29M12 35h28M8 11h36M8 11l-5 12h10ZM44 11l-5 12h10Z" {...line} />,
};

export function ShapeChoice({
  value,
  onChoose,
}: {
  readonly value: GeometryKind;
  readonly onChoose: (kind: GeometryKind) => void;
}) {
  const text = words.value.specimen;
  return (
    <fieldset class="field">
      <legend class="field-label">{text.shape}</legend>
      <div class="shapes">
        {MEASURED_KINDS.map((kind) => (
          <label key={kind}>
            <input
              type="radio"
              name="shape"
              value={kind}
              checked={kind === value}
              onChange={() => onChoose(kind)}
            />
            <svg viewBox="0 0 52 40" aria-hidden="true">
              {SIGNS[kind]}
            </svg>
            {text.shapes[kind]}
          </label>
        ))}
      </div>
    </fieldset>
  );
}
