/** How far a specimen of a set has come, in a word with a shape of its own. */
import type { JSX } from 'preact';
import type { MemberStage } from '../../../core/sets/set-overview.ts';
import { words } from '../../words/words.ts';

const line = { fill: 'none', stroke: 'currentColor', 'stroke-width': 2 } as const;

/** The specimen itself, in what it has gone through. */
const SHAPES: Readonly<Record<MemberStage, JSX.Element>> = {
  'to-measure': <path d="M2 6h5l2 2h6l2-2h5v12h-5l-2-2H9l-2 2H2Z" {...line} stroke-dasharray="2 3" />,
  'to-pull': <path d="M2 6h5l2 2h6l2-2h5v12h-5l-2-2H9l-2 2H2Z" {...line} />,
  pulling: (
    <>
      <path d="M9 12h6" {...line} />
      <path d="M8 6 2 12l6 6ZM16 6l6 6-6 6Z" fill="currentColor" />
    </>
  ),
  'to-look-at': (
    <>
      <path d="M2 6h5l2 2 1 4-1 4-2 2H2Z" fill="currentColor" />
      <path d="M22 6h-5l-2 2-1 4 1 4 2 2h5Z" fill="currentColor" />
    </>
  ),
  'to-judge': (
    <>
      <path d="M12 3 22 21H2Z" {...line} />
      <path d="M12 10v5M12 17v2" {...line} />
    </>
  ),
  judged: <path d="M4 8h16M4 15h16M4 19h16" {...line} />,
  void: <path d="M2 6h5l2 2h6l2-2h5v12h-5l-2-2H9l-2 2H2ZM2 21 22 3" {...line} />,
};

export function StageWord({ stage }: { readonly stage: MemberStage }) {
  return (
    <span class="stage-word" data-stage={stage}>
      <svg viewBox="0 0 24 24" width="24" height="24" aria-hidden="true">
        {SHAPES[stage]}
      </svg>
      {words.value.set.stages[stage]}
    </span>
  );
}
