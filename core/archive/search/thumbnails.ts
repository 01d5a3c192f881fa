/** Small pictures of curves: made when one is first asked for, then kept beside the search index. */
import { z } from 'zod';
import type { SmallCurve } from '../../contract/search-requests.ts';
import type { Curve } from '../../curve/curve.ts';
import { drawnLength } from '../../curve/drawn-length.ts';
import { thumbnailOf } from '../../curve/thumbnail.ts';
import { mayWrite } from '../let-write.ts';
import { curveOf } from '../pull-columns.ts';
import { type Connection, countOf, oneRow, sqlBlob, statement } from '../sql.ts';

/** Raised by one when pictures are drawn otherwise. */
const THUMBNAIL_FORM = 1;

const row = z.object({ points: sqlBlob });

/** Of closed pulls; others are left out. Only a connection that may write keeps what it made. */
export function thumbnailsOf(connection: Connection, pullIds: readonly number[]): SmallCurve[] {
  const isKept = mayWrite(connection);
  return pullIds.flatMap((pullId) => {
    const kept = oneRow(
      connection,
      row,
      'SELECT points FROM thumbnail WHERE pull_id = ? AND form = ?',
      pullId,
      THUMBNAIL_FORM,
    );
    if (kept !== null) return [{ pullId, bytes: Uint8Array.from(kept.points) }];
    const isClosed =
      countOf(connection, 'SELECT count(*) AS n FROM pull_end WHERE pull_id = ?', pullId) === 1;
    if (!isClosed) return [];
    const bytes = drawn(connection, pullId);
    if (isKept)
      statement(connection, 'INSERT OR REPLACE INTO thumbnail (pull_id, form, points) VALUES (?, ?, ?)').run(
        pullId,
        THUMBNAIL_FORM,
        bytes,
      );
    return [{ pullId, bytes }];
  });
}

function drawn(connection: Connection, pullId: number): Uint8Array {
  const { curve } = curveOf(connection, pullId);
  return thumbnailOf(withoutTail(curve))?.bytes ?? new Uint8Array(0);
}

/** What came after the last load would leave the pull a corner of the picture. */
function withoutTail(curve: Curve): Curve {
  const length = drawnLength(curve);
  const { gaps = [] } = curve;
  const cut = (name: keyof Curve): Partial<Curve> => {
    const column = curve[name];
    return column instanceof Float64Array ? { [name]: column.subarray(0, length) } : {};
  };
  return {
    ...cut('timeS'),
    ...cut('forceN'),
    ...cut('extensionMm'),
    ...cut('travelMm'),
    ...cut('stressMpa'),
    ...cut('strainRatio'),
    length,
    gaps: gaps.filter(({ beforeIndex }) => beforeIndex < length),
  };
}
