/** The picture of a trend: arrow keys and pointer go from pull to pull, Enter opens the one that is read out; a table of all. */
import { useSignal } from '@preact/signals';
import { PICTURE_HEIGHT_MM, PICTURE_WIDTH_MM } from '../../core/drawing/picture-size.ts';
import type { CurvePlotInput } from '../../core/drawing/plot-input.ts';
import { trendPlaces } from '../../core/trend/trend-places.ts';
import { type TrendPoint, dayOf } from '../../core/trend/trend-plot.ts';
import { openPull } from '../archive/pull-by-name.tsx';
import { KeyValues } from '../plot/key-values.tsx';
import { statedText } from '../../core/pull/stated-day.ts';
import type { TrendPull } from '../../core/trend/trend-pull.ts';
import { WalkedPlot } from '../plot/walked-plot.tsx';
import { fixed } from '../numbers/format.ts';
import { language } from '../store/view-settings.ts';
import { words } from '../words/words.ts';
import { trendText, view } from './trend-choice.ts';

/** Rows of the table that is folded out; a browser shows more only slowly. */
const ROWS_MAX = 2_000;

export interface TrendPictureViewProps {
  readonly title: string;
  /** What the values are, without a unit: "strength Rm". */
  readonly quantityName: string;
  /** In the order of pulling. */
  readonly points: readonly TrendPoint[];
  readonly plot: (widthMm: number, heightMm: number) => CurvePlotInput | null;
  readonly changes: readonly unknown[];
}

/** By the clock of the place; what was stated is marked as that. */
const dateOf = (pull: TrendPull): string =>
  pull.pulledOn === null ? dayOf(pull) : words.value.exchange.statedDate(statedText(pull.pulledOn));

const FACTS = ['heat', 'lot', 'welder'] as const;

export function TrendPictureView({ title, quantityName, points, plot, changes }: TrendPictureViewProps) {
  const text = words.value.look.trend;
  const isOpen = useSignal(false);
  const said = (pullId: number): string => {
    const point = points.find(({ pull }) => pull.pullId === pullId);
    if (point === undefined) return '';
    const { pull, value } = point;
    const facts = FACTS.filter((fact) => pull[fact] !== '').map(
      (fact) => `${text.words.group[fact]} ${pull[fact]}`,
    );
    return [`${pull.name}, ${dateOf(pull)}: ${trendText(value)}`, ...facts].join('; ');
  };
  const count = (n: number): string => fixed(n, 0, language.value);
  const picture = plot(PICTURE_WIDTH_MM, PICTURE_HEIGHT_MM);
  const places =
    picture === null
      ? []
      : trendPlaces(points, view.value, picture).map(({ point, x, y }) => ({ key: point.pull.pullId, x, y }));
  return (
    <WalkedPlot
      id="trend-plot"
      canvasClass="trend-canvas"
      name={title}
      keysHint={text.plotKeys}
      places={places}
      said={said}
      onEnter={openPull}
      changes={changes}
      plot={plot}
    >
      <KeyValues
        id="trend-values"
        isOver
        summary={text.table}
        caption={
          points.length > ROWS_MAX ? text.newestOf(title, count(ROWS_MAX), count(points.length)) : title
        }
        nameHead={text.pull}
        columns={[text.words.date, quantityName, ...FACTS.map((fact) => text.words.group[fact])]}
        onFold={(open) => (isOpen.value = open)}
        rows={
          isOpen.value
            ? points.slice(-ROWS_MAX).map(({ pull, value }) => ({
                name: pull.name,
                cells: [dateOf(pull), trendText(value), ...FACTS.map((fact) => pull[fact])],
              }))
            : []
        }
      />
    </WalkedPlot>
  );
}
