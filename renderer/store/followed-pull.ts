/**
 * Follows one pull from its first reading to its newest: live blocks as they come, and `pull.readings` for what
 * came before the page was there or what it was too slow for. The page may reload at any moment; it ends up with
 * the same columns.
 */
import type { Bridge } from '../../core/contract/bridge.ts';
import type { EventOf, Fault } from '../../core/contract/index.ts';
import type { ReadingColumns } from '../../core/contract/reading.ts';
import { READINGS_PER_REPLY_MAX } from '../../core/limits.ts';
import { ask } from '../bridge/ask.ts';
import { CurveColumns } from './curve-columns.ts';

/** Live blocks held while catching up; at sixty a second more would mean that an answer takes several seconds. */
const HELD_BLOCKS_MAX = 300;

export class FollowedPull {
  readonly pullId: number;
  columns = new CurveColumns();
  /** How values were converted (zero taken off); a block of another basis means: everything again. */
  basis: number | null = null;
  fault: Fault | null = null;

  readonly #bridge: Pick<Bridge, 'request'>;
  readonly #changed: () => void;
  #peakOfRecord: number | null = null;
  #isOfFile = false;
  #catchingUp = false;
  /** Live blocks that came while catching up: they belong behind what is being asked for. */
  #held: ReadingColumns[] = [];
  /** Something came while catching up that is not held, so what the last answer called all may no longer be all. */
  #cameMeanwhile = false;
  #closed = false;

  constructor(bridge: Pick<Bridge, 'request'>, pullId: number, changed: () => void) {
    this.#bridge = bridge;
    this.pullId = pullId;
    this.#changed = () => {
      this.#heedPeak();
      changed();
    };
  }

  /** Number of the reading that the record takes for its peak. */
  heedPeakOfRecord(seq: number): void {
    this.#peakOfRecord = seq;
    this.#heedPeak();
  }

  /** Its readings were taken over from a file, which says their time itself. */
  countByFile(): void {
    this.#isOfFile = true;
    this.columns.countByFile();
  }

  #heedPeak(): void {
    if (this.#peakOfRecord !== null) this.columns.heedPeakOfRecord(this.#peakOfRecord);
  }

  /** Takes a block of the `readings` event. */
  take(event: EventOf<'readings'>): void {
    if (event.pullId !== this.pullId || this.#closed) return;
    if (this.basis !== event.basis) this.#startOver(event.basis);
    if (this.#catchingUp) {
      if (this.#held.length < HELD_BLOCKS_MAX) this.#held.push(event.columns);
      else this.#cameMeanwhile = true;
      return;
    }
    if (this.columns.append(event.columns)) this.#changed();
    else void this.catchUp();
  }

  /** Asks for all readings that are not here yet. */
  async catchUp(): Promise<void> {
    if (this.#catchingUp || this.#closed) {
      this.#cameMeanwhile = true;
      return;
    }
    this.#catchingUp = true;
    try {
      do {
        this.#cameMeanwhile = false;
        await this.#readToEnd();
        this.#takeHeld();
      } while (this.#more() && this.fault === null && !this.#isClosed());
    } finally {
      this.#catchingUp = false;
    }
  }

  close(): void {
    this.#closed = true;
  }

  /** Blocks that leave a hole are asked for in a further round. */
  #takeHeld(): void {
    const held = this.#held;
    this.#held = [];
    if (held.length === 0 || this.#closed) return;
    for (const block of held) if (!this.columns.append(block)) this.#cameMeanwhile = true;
    this.#changed();
  }

  /** Asks for what was there when it began; a record that runs would otherwise be asked for without an end. */
  async #readToEnd(): Promise<void> {
    let total: number | null = null;
    for (;;) {
      const columns = this.columns;
      const answer = await ask(this.#bridge, 'pull.readings', {
        pullId: this.pullId,
        fromSeq: columns.length,
        count: READINGS_PER_REPLY_MAX,
      });
      if (this.#isClosed()) return;
      if (!answer.ok) {
        this.fault = answer.fault;
        this.#changed();
        return;
      }
      this.fault = null;
      if (this.basis !== answer.value.basis) {
        const begunHere = this.basis === null && columns.length === 0;
        this.#startOver(answer.value.basis);
        if (!begunHere) continue;
      }
      // The basis may have changed while the answer was under way; then the columns are new ones.
      const took =
        this.columns.length === answer.value.columns.firstSeq && this.columns.append(answer.value.columns);
      this.#changed();
      total ??= answer.value.total;
      if (took && (answer.value.columns.count === 0 || this.columns.length >= total)) return;
    }
  }

  #startOver(basis: number): void {
    const first = this.basis === null && this.columns.length === 0;
    this.basis = basis;
    this.#held = [];
    if (first) return;
    this.columns = new CurveColumns();
    if (this.#isOfFile) this.columns.countByFile();
  }

  /** Asked by a function, since it changes while an answer is waited for. */
  #more(): boolean {
    return this.#cameMeanwhile;
  }

  #isClosed(): boolean {
    return this.#closed;
  }
}
