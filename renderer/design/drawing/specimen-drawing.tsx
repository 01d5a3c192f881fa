/** One line drawing per geometry: the dimension lines carry what was measured, and where it broke is set by pressing the place. */
import { useEffect, useRef, useState } from 'preact/hooks';
import type { GeometryKind } from '../../../core/specimen/specimen-file.ts';
import { words } from '../../words/words.ts';
import { DimensionLine } from './dimension-line.tsx';
import { DRAWING, type FracturePlace, ZONES, fractureX } from './places.ts';
import { type SectionLabels, SectionView } from './section-view.tsx';
import { AXIS_Y, SideView, reducedHalf } from './side-view.tsx';
import './drawing.css';

export interface DrawingLabels extends SectionLabels {
  readonly gaugeLength?: string;
  readonly length?: string;
}

export interface SpecimenDrawingProps {
  readonly kind: GeometryKind;
  readonly labels: DrawingLabels;
  /** Smaller dimension of the section over the larger one, where both are measured. */
  readonly sectionRatio?: number | null;
  readonly broke?: FracturePlace | null;
  /** Where the press was, so that the fracture is drawn on that side. */
  readonly onPlace?: (place: FracturePlace, side: 'left' | 'right') => void;
}

/** Size of the drawing in its own units, and of its text on the screen. */
const WIDTH = 1056;
const HEIGHT = 226;
const TEXT_PX = 14;
const TEXT_UNITS_MIN = 16;
const TEXT_UNITS_MAX = 32;

/** How many units of the drawing one pixel of the screen is. */
function useScale() {
  const ref = useRef<SVGSVGElement>(null);
  const [unitsPerPx, setUnitsPerPx] = useState(1);
  useEffect(() => {
    const svg = ref.current;
    if (svg === null) return;
    const observer = new ResizeObserver(() => {
      if (svg.clientWidth > 0) setUnitsPerPx(WIDTH / svg.clientWidth);
    });
    observer.observe(svg);
    return () => observer.disconnect();
  }, []);
  return { ref, unitsPerPx };
}

export function SpecimenDrawing({
  kind,
  labels,
  sectionRatio = null,
  broke = null,
  onPlace,
}: SpecimenDrawingProps) {
  const [pressedX, setPressedX] = useState<number | null>(null);
  const text = words.value;
  const { ref, unitsPerPx } = useScale();
  // Text keeps its size on the screen however small the drawing gets.
  const textUnits = Math.min(TEXT_UNITS_MAX, Math.max(TEXT_UNITS_MIN, TEXT_PX * unitsPerPx));
  const half = reducedHalf(kind);
  const placeAtPress = ZONES.find((z) => pressedX !== null && pressedX >= z.fromX && pressedX < z.toX)?.place;
  const x = broke === null ? null : placeAtPress === broke && pressedX !== null ? pressedX : fractureX(broke);
  const dimensionY = AXIS_Y + Math.max(half, 46) + 46;
  return (
    <svg
      class="drawing"
      viewBox={`-12 -8 ${WIDTH + (textUnits - TEXT_UNITS_MIN) * 6.5} ${HEIGHT + (textUnits - TEXT_UNITS_MIN)}`}
      ref={ref}
      style={{ '--drawing-text': `${textUnits}px` }}
      role="img"
      aria-label={text.drawing.name(text.specimen.shapes[kind])}
    >
      <defs>
        <pattern id="hatch" width="9" height="9" patternUnits="userSpaceOnUse" patternTransform="rotate(45)">
          <path d="M0 0V9" stroke="var(--pencil)" stroke-width="1.1" />
        </pattern>
      </defs>
      <SideView kind={kind} />
      <ChosenZone place={broke} x={x} kind={kind} />
      {x === null ? null : <Fracture x={x} half={heightAt(x, kind)} />}
      {kind === 'weighed' ? (
        <DimensionLine
          from={[10, dimensionY]}
          to={[710, dimensionY]}
          witness={[
            [10, AXIS_Y + half + 6],
            [710, AXIS_Y + half + 6],
          ]}
          text={labels.length ?? 'Lt'}
          textUnits={textUnits}
        />
      ) : (
        <DimensionLine
          from={[DRAWING.mark, dimensionY]}
          to={[DRAWING.length - DRAWING.mark, dimensionY]}
          witness={[
            [DRAWING.mark, AXIS_Y + 14],
            [DRAWING.length - DRAWING.mark, AXIS_Y + 14],
          ]}
          text={labels.gaugeLength ?? 'L0'}
          textUnits={textUnits}
        />
      )}
      <SectionView kind={kind} labels={labels} ratio={sectionRatio} />
      {onPlace === undefined
        ? null
        : ZONES.map((zone) => (
            <rect
              key={zone.fromX}
              class="zone"
              x={zone.fromX}
              y={AXIS_Y - 78}
              width={zone.toX - zone.fromX}
              height={156}
              data-place={zone.place}
              onClick={() => {
                setPressedX((zone.fromX + zone.toX) / 2);
                onPlace(zone.place, zone.toX <= DRAWING.middle ? 'left' : 'right');
              }}
            >
              <title>{text.fracture.places[zone.place]}</title>
            </rect>
          ))}
    </svg>
  );
}

function ChosenZone({
  place,
  x,
  kind,
}: {
  readonly place: FracturePlace | null;
  readonly x: number | null;
  readonly kind: GeometryKind;
}) {
  const zone = ZONES.find((z) => z.place === place && x !== null && x >= z.fromX && x <= z.toX);
  if (zone === undefined) return null;
  const half = heightAt((zone.fromX + zone.toX) / 2, kind);
  return (
    <rect
      class="chosen-zone"
      x={zone.fromX}
      y={AXIS_Y - half}
      width={zone.toX - zone.fromX}
      height={2 * half}
    />
  );
}

function heightAt(x: number, kind: GeometryKind): number {
  const fromEnd = Math.min(x, DRAWING.length - x);
  return fromEnd < DRAWING.gripEnd + 20 ? 70 : reducedHalf(kind) + 4;
}

/** Two ragged halves drawn apart. */
function Fracture({ x, half }: { readonly x: number; readonly half: number }) {
  const teeth = [-0.9, -0.55, -0.25, 0.1, 0.35, 0.7, 1];
  const shift = [3, -4, 5, -3, 4, -5, 2];
  const edge = (side: number): string =>
    teeth.map((t, i) => `L${x + side * 5 + (shift[i] ?? 0)} ${AXIS_Y + t * half}`).join('');
  const back = (side: number): string =>
    [...teeth]
      .reverse()
      .map((t, i) => `L${x + side * 5 + (shift[teeth.length - 1 - i] ?? 0)} ${AXIS_Y + t * half}`)
      .join('');
  return (
    <>
      <path
        class="fracture"
        stroke="none"
        style={{ stroke: 'none' }}
        d={`M${x - 5} ${AXIS_Y - half}${edge(-1)}L${x + 5} ${AXIS_Y + half}${back(1)}L${x + 5} ${AXIS_Y - half}Z`}
      />
      <path
        class="thin"
        style={{ strokeWidth: 2.25 }}
        d={`M${x - 5} ${AXIS_Y - half}${edge(-1)}M${x + 5} ${AXIS_Y - half}${edge(1)}`}
      />
    </>
  );
}
