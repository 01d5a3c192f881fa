/** The specimen from the side: grips, reduced section, weld with its heat-affected zone, gauge marks. */
import type { GeometryKind } from '../../../core/specimen/specimen-file.ts';
import { DRAWING } from './places.ts';

/** Half heights of grip and reduced section, in the drawing's units. */
const FORM: Readonly<Record<GeometryKind, { readonly grip: number; readonly reduced: number }>> = {
  flat: { grip: 68, reduced: 42 },
  'pipe-strip': { grip: 68, reduced: 42 },
  round: { grip: 54, reduced: 30 },
  tube: { grip: 46, reduced: 46 },
  weighed: { grip: 26, reduced: 26 },
  unmeasured: { grip: 68, reduced: 42 },
};

export const AXIS_Y = 104;
export const reducedHalf = (kind: GeometryKind): number => FORM[kind].reduced;

export function SideView({ kind }: { readonly kind: GeometryKind }) {
  const { grip, reduced } = FORM[kind];
  return (
    <>
      <path class="outline" d={outline(grip, reduced, kind === 'round')} />
      {kind === 'round' ? <Threads half={grip} /> : null}
      {kind === 'tube' ? (
        <>
          <path class="thin" d={`M10 ${AXIS_Y - 32}H710M10 ${AXIS_Y + 32}H710`} stroke-dasharray="7 5" />
          <Plug x={10} />
          <Plug x={602} />
        </>
      ) : null}
      {kind === 'round' || kind === 'tube' ? <path class="centre" d={`M-6 ${AXIS_Y}H726`} /> : null}
      <Weld half={reduced} />
      <GaugeMarks y={AXIS_Y} />
    </>
  );
}

function outline(grip: number, reduced: number, round: boolean): string {
  const { length, gripEnd, shoulderEnd } = DRAWING;
  const up = (half: number) => AXIS_Y - half;
  const down = (half: number) => AXIS_Y + half;
  const left = round ? gripEnd + 14 : gripEnd;
  // Shoulders are drawn with the fillet that the standards ask for: tangent to the reduced section.
  return [
    `M10 ${up(grip)}H${left}`,
    `C${left + 24} ${up(grip)} ${shoulderEnd - 26} ${up(reduced)} ${shoulderEnd} ${up(reduced)}`,
    `H${length - shoulderEnd}`,
    `C${length - shoulderEnd + 26} ${up(reduced)} ${length - left - 24} ${up(grip)} ${length - left} ${up(grip)}`,
    `H710V${down(grip)}H${length - left}`,
    `C${length - left - 24} ${down(grip)} ${length - shoulderEnd + 26} ${down(reduced)} ${length - shoulderEnd} ${down(reduced)}`,
    `H${shoulderEnd}`,
    `C${shoulderEnd - 26} ${down(reduced)} ${left + 24} ${down(grip)} ${left} ${down(grip)}H10Z`,
  ].join('');
}

function Threads({ half }: { readonly half: number }) {
  const at = Array.from({ length: 12 }, (_, i) => 18 + i * 9);
  const d = at
    .flatMap((x) => [x, DRAWING.length - x - 5])
    .map((x) => `M${x} ${AXIS_Y - half}l5 ${2 * half}`)
    .join('');
  return <path class="thin" d={d} opacity="0.45" />;
}

function Plug({ x }: { readonly x: number }) {
  return <path class="thin" d={`M${x} ${AXIS_Y - 32}h108v64h-108Z`} opacity="0.55" />;
}

/** Fusion lines bowed as a groove weld looks from above, ripples of the solidifying pool between them. */
function Weld({ half }: { readonly half: number }) {
  const { middle, weld, haz, fusion } = DRAWING;
  const top = AXIS_Y - half;
  const bottom = AXIS_Y + half;
  const w = middle - weld + 3;
  const edge = (side: number) => `M${middle + side * w} ${top}q${side * 5} ${half * 0.5} 0 ${half}t0 ${half}`;
  const ripples = Array.from(
    { length: Math.max(2, Math.floor(half / 11)) },
    (_, i, all = Math.floor(half / 11)) => {
      const y = top + ((i + 0.6) * 2 * half) / Math.max(2, all);
      return `M${middle - w + 5} ${y - 4}Q${middle} ${y + 9} ${middle + w - 5} ${y - 4}`;
    },
  ).join('');
  const hazX = (haz + fusion) / 2 - 8;
  return (
    <>
      <path class="weld-body" d={`M${middle - w} ${top}H${middle + w}V${bottom}H${middle - w}Z`} />
      <path class="weld" d={`${edge(-1)}${edge(1)}`} />
      <path class="weld" d={ripples} opacity="0.6" />
      <path class="haz" d={`M${hazX} ${top + 5}V${bottom - 3}M${720 - hazX} ${top + 5}V${bottom - 3}`} />
      <path
        class="haz"
        d={`M${fusion - 4} ${top + 7}V${bottom - 5}M${724 - fusion} ${top + 7}V${bottom - 5}`}
      />
    </>
  );
}

/** Punch marks. */
function GaugeMarks({ y }: { readonly y: number }) {
  return (
    <>
      {[DRAWING.mark, DRAWING.length - DRAWING.mark].map((x) => (
        <g key={x}>
          <circle class="mark" cx={x} cy={y} r="4.2" />
          <path class="thin" d={`M${x} ${y - 11}v22M${x - 11} ${y}h22`} />
        </g>
      ))}
    </>
  );
}
