/** The section that carries the load, hatched, with its dimensions. */
import type { GeometryKind } from '../../../core/specimen/specimen-file.ts';
import { DimensionLine } from './dimension-line.tsx';

export interface SectionLabels {
  readonly width?: string;
  readonly thickness?: string;
  readonly diameter?: string;
  readonly outerDiameter?: string;
  readonly wall?: string;
  readonly mass?: string;
  readonly density?: string;
}

const CX = 850;
const CY = 104;

export function SectionView({
  kind,
  labels,
  ratio,
}: {
  readonly kind: GeometryKind;
  readonly labels: SectionLabels;
  readonly ratio: number | null;
}) {
  switch (kind) {
    case 'flat':
      return <Rectangle labels={labels} ratio={ratio} />;
    case 'pipe-strip':
      return <Strip labels={labels} />;
    case 'round':
      return <Circle labels={labels} />;
    case 'tube':
      return <Ring labels={labels} ratio={ratio} />;
    case 'weighed':
    case 'unmeasured':
      return <Unknown labels={labels} />;
  }
}

function Rectangle({ labels, ratio }: { readonly labels: SectionLabels; readonly ratio: number | null }) {
  const width = 130;
  // In proportion where both are measured, within what can still be read.
  const height = width * Math.min(1, Math.max(0.16, ratio ?? 0.4));
  const left = CX - width / 2;
  const top = CY - height / 2;
  return (
    <>
      <rect class="outline" x={left} y={top} width={width} height={height} />
      <rect class="hatched" x={left} y={top} width={width} height={height} />
      <DimensionLine
        from={[left, top - 26]}
        to={[left + width, top - 26]}
        witness={[
          [left, top - 4],
          [left + width, top - 4],
        ]}
        text={labels.width ?? 'b0'}
        beside
      />
      <DimensionLine
        from={[left + width + 22, top]}
        to={[left + width + 22, top + height]}
        witness={[
          [left + width + 4, top],
          [left + width + 4, top + height],
        ]}
        text={labels.thickness ?? 'a0'}
        beside
      />
    </>
  );
}

function Circle({ labels }: { readonly labels: SectionLabels }) {
  const r = 54;
  return (
    <>
      <circle class="outline" cx={CX} cy={CY} r={r} />
      <circle class="hatched" cx={CX} cy={CY} r={r} />
      <path class="centre" d={`M${CX - r - 12} ${CY}h${2 * r + 24}M${CX} ${CY - r - 12}v${2 * r + 24}`} />
      <DimensionLine
        from={[CX - r, CY + r + 28]}
        to={[CX + r, CY + r + 28]}
        witness={[
          [CX - r, CY + 6],
          [CX + r, CY + 6],
        ]}
        text={`⌀ ${labels.diameter ?? 'd0'}`}
      />
    </>
  );
}

function Ring({ labels, ratio }: { readonly labels: SectionLabels; readonly ratio: number | null }) {
  const r = 58;
  const wall = r * Math.min(0.8, Math.max(0.14, (ratio ?? 0.12) * 2));
  return (
    <>
      <path
        class="outline"
        fill-rule="evenodd"
        d={`M${CX - r} ${CY}a${r} ${r} 0 1 0 ${2 * r} 0a${r} ${r} 0 1 0 ${-2 * r} 0ZM${CX - r + wall} ${CY}a${r - wall} ${r - wall} 0 1 0 ${2 * (r - wall)} 0a${r - wall} ${r - wall} 0 1 0 ${-2 * (r - wall)} 0Z`}
      />
      <path
        class="hatched"
        fill-rule="evenodd"
        d={`M${CX - r} ${CY}a${r} ${r} 0 1 0 ${2 * r} 0a${r} ${r} 0 1 0 ${-2 * r} 0ZM${CX - r + wall} ${CY}a${r - wall} ${r - wall} 0 1 0 ${2 * (r - wall)} 0a${r - wall} ${r - wall} 0 1 0 ${-2 * (r - wall)} 0Z`}
      />
      <DimensionLine
        from={[CX - r, CY + r + 26]}
        to={[CX + r, CY + r + 26]}
        witness={[
          [CX - r, CY + 6],
          [CX + r, CY + 6],
        ]}
        text={`⌀ ${labels.outerDiameter ?? 'D0'}`}
      />
      <DimensionLine
        from={[CX + r - wall, CY - r - 18]}
        to={[CX + r, CY - r - 18]}
        witness={[
          [CX + r - wall, CY - 4],
          [CX + r, CY - 4],
        ]}
        text={labels.wall ?? 'a0'}
        beside
      />
    </>
  );
}

function Strip({ labels }: { readonly labels: SectionLabels }) {
  const half = 68;
  const outer = `M${CX - half} ${CY + 4}A120 120 0 0 1 ${CX + half} ${CY + 4}V${CY + 34}A96 96 0 0 0 ${CX - half} ${CY + 34}Z`;
  return (
    <>
      <path class="outline" d={outer} />
      <path class="hatched" d={outer} />
      <DimensionLine
        from={[CX - half, CY + 66]}
        to={[CX + half, CY + 66]}
        witness={[
          [CX - half, CY + 38],
          [CX + half, CY + 38],
        ]}
        text={labels.width ?? 'W'}
      />
      <DimensionLine
        from={[CX + half + 20, CY + 4]}
        to={[CX + half + 20, CY + 34]}
        witness={[
          [CX + half + 4, CY + 4],
          [CX + half + 4, CY + 34],
        ]}
        text={labels.wall ?? 'T'}
        beside
      />
      <text x={CX} y={CY - 36} text-anchor="middle">
        ⌀ {labels.outerDiameter ?? 'D'}
      </text>
    </>
  );
}

function Unknown({ labels }: { readonly labels: SectionLabels }) {
  const d = `M${CX - 46} ${CY - 8}c4 -34 40 -40 62 -24s38 22 30 44s-34 30 -56 22s-40 -12 -36 -42Z`;
  return (
    <>
      <path class="outline" d={d} />
      <path class="hatched" d={d} />
      <text x={CX} y={CY + 70} text-anchor="middle">
        {labels.mass ?? 'm'}
      </text>
      <text x={CX} y={CY + 94} text-anchor="middle">
        {labels.density ?? 'ρ'}
      </text>
    </>
  );
}
