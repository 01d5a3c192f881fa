/** The usual cautions of the trade, shown before every pull. */
import { words } from '../words/words.ts';
import './cautions.css';

function CautionSign({ size }: { readonly size: number }) {
  return (
    <svg width={size} height={size} viewBox="0 0 24 24" aria-hidden="true">
      <path
        d="M12 2 22.5 21h-21Z"
        fill="var(--call)"
        stroke="var(--ink)"
        stroke-width="2"
        stroke-linejoin="round"
      />
      <path d="M12 9v6M12 16.6v2" stroke="var(--on-call)" stroke-width="2.4" />
    </svg>
  );
}

/** @param isSheet on a sheet of their own, which has their title already */
export function Cautions({ isSheet = false }: { readonly isSheet?: boolean }) {
  const { cautions } = words.value;
  return (
    <section class="cautions" aria-label={cautions.title}>
      {isSheet ? null : (
        <h2>
          <CautionSign size={26} />
          {cautions.title}
        </h2>
      )}
      <ul>
        {[cautions.guard, cautions.eyes, cautions.energy, cautions.hands].map((text) => (
          <li key={text}>
            <svg width="20" height="20" viewBox="0 0 20 20" aria-hidden="true">
              <path d="M10 1 19 10 10 19 1 10Z" fill="none" stroke="var(--ink)" stroke-width="2" />
            </svg>
            {text}
          </li>
        ))}
      </ul>
      <p class="governs">{cautions.notSafety}</p>
      <p class="governs">{cautions.govern}</p>
    </section>
  );
}

/** One line of the same, for while the load is on. */
export function CautionLine() {
  return (
    <p class="caution-line">
      <CautionSign size={18} />
      {words.value.cautions.short}
    </p>
  );
}
