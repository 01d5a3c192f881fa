/** The outline of a long pull: what is drawn of it while its readings are still under way. */
import { type Outline, OutlineMaker } from '../curve/outline.ts';
import { effectiveMarks } from '../pull/effective-marks.ts';
import { fillColumn, convertedChannels } from './pull-columns.ts';
import { extentOf, gapsOf, marksOf } from './pull-reader.ts';
import { columnBlocks } from './read-blocks.ts';
import { type Connection, countOf } from './sql.ts';

/** Below this the readings themselves are there as soon. */
export const OUTLINED_FROM_READINGS = 60_000;

export interface PullOutline extends Outline {
  /** Readings of the whole pull. */
  readonly total: number;
  /** What `along` is. */
  readonly abscissa: 'extension' | 'travel' | null;
}

/** Null of a record that is open, short, without a load, or with more gaps than a picture can show. */
export function outlineOf(connection: Connection, pullId: number): PullOutline | null {
  const { readings: total } = extentOf(connection, pullId);
  const isClosed = countOf(connection, 'SELECT count(*) AS n FROM pull_end WHERE pull_id = ?', pullId) === 1;
  if (!isClosed || total < OUTLINED_FROM_READINGS) return null;
  const converters = convertedChannels(connection, pullId);
  const placeOf = (quantity: string): number =>
    converters.findIndex(({ info }) => info.quantity === quantity);
  const force = placeOf('force');
  if (force < 0) return null;
  const abscissa = (['extension', 'travel'] as const).find((quantity) => placeOf(quantity) >= 0) ?? null;
  const maker = new OutlineMaker({
    ...effectiveMarks(marksOf(connection, pullId)),
    lifts: gapsOf(connection, pullId).map(({ beforeSeq }) => beforeSeq),
  });
  let rooms = [new Float64Array(0), new Float64Array(0)] as const;
  for (const { firstSeq, columns, elapsedUs } of columnBlocks(connection, pullId)) {
    const { count } = columns;
    if (rooms[0].length < count) rooms = [new Float64Array(count), new Float64Array(count)];
    const values = (room: Float64Array, place: number): Float64Array => {
      const column = room.subarray(0, count);
      const shown = columns.channels[place];
      const converter = converters[place];
      if (shown === undefined || converter === undefined)
        throw new RangeError(`reading ${firstSeq} has no channel ${place}`);
      fillColumn(column, 0, shown, converter);
      return column;
    };
    maker.take(
      firstSeq,
      elapsedUs,
      values(rooms[0], force),
      abscissa === null ? null : values(rooms[1], placeOf(abscissa)),
    );
  }
  const outline = maker.outline();
  return outline === null ? null : { total, abscissa, ...outline };
}
