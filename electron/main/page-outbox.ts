/**
 * Between main and a page that may be slow, frozen or dead: nothing piles up. Of snapshots only the newest waits;
 * of raw lines as many as are shown; of readings a few batches are under way, and what does not fit is left out and named, so that the page asks for it.
 * Nothing goes to a page that does not listen yet. Such a page asks for everything by itself, but for what somebody has
 * pressed in the menu: that waits for it.
 */
import { type PageEventName, type PageEventOf, pageEvents } from '../../core/contract/bridge.ts';
import { PREVIEW_LINES_MAX } from '../../core/limits.ts';

/** Batches of readings under way: at 60 a second a page may be an eighth of a second behind without asking again. */
const READINGS_UNDER_WAY_MAX = 8;
/** A page that has not taken a hundred notices is frozen; the session snapshot carries those still in force. */
const LINE_MAX = 100;

type Readings = PageEventOf<'readings'>;
type Preview = PageEventOf<'preview'>;
type Command = PageEventOf<'menu-command'>;

interface InLine {
  readonly name: PageEventName;
  readonly event: unknown;
  /** It had been sent to an earlier page, which has not said that it took it. */
  readonly sentAs?: number;
}

/** Sends to the page, with a number that the page gives back when it has taken the message. */
export type Send = (number: number, name: PageEventName, event: unknown) => void;

export class PageOutbox {
  readonly #send: Send;
  #lastNumber = 0;
  readonly #underWay = new Map<number, InLine>();
  /** Names of events to which the present page listens. */
  readonly #listening = new Set<PageEventName>();
  /** Newest snapshot of each kind that could not go yet. */
  readonly #waiting = new Map<PageEventName, unknown>();
  /** Notices and menu commands are single events: each one counts, so they wait in line. */
  #line: InLine[] = [];
  #leftOut: { pullId: number; basis: number; fromSeq: number } | null = null;

  constructor(send: Send) {
    this.#send = send;
  }

  put<N extends PageEventName>(name: N, event: PageEventOf<N>): void {
    if (!this.#listening.has(name)) {
      if (name === 'menu-command') this.#putInLine({ name, event });
    } else if (name === 'readings') this.#putReadings(event as Readings);
    else if (this.#countUnderWay(name) === 0) this.#go(name, event);
    else if (name === 'notice' || name === 'menu-command') this.#putInLine({ name, event });
    else if (name === 'preview') this.#waitWith(event as Preview);
    else this.#waiting.set(name, event);
  }

  /** Each preview holds only what is new: the lines of one that waits go with the next, as many as are ever shown. */
  #waitWith(next: Preview): void {
    const waiting = this.#waiting.get('preview') as Preview | undefined;
    const last = waiting?.lines.at(-1)?.line ?? -1;
    // Numbers that begin again belong to a readout that was opened anew.
    const goesOn = waiting !== undefined && (next.lines[0]?.line ?? Infinity) > last;
    const lines = goesOn ? [...waiting.lines, ...next.lines].slice(-PREVIEW_LINES_MAX) : next.lines;
    this.#waiting.set('preview', { ...next, lines });
  }

  /** The page has taken message `number`. From an earlier page it only tells that a command need not be sent again. */
  taken(number: number): void {
    const sent = this.#underWay.get(number);
    if (sent === undefined) {
      this.#line = this.#line.filter(({ sentAs }) => sentAs !== number);
      return;
    }
    this.#underWay.delete(number);
    this.#goOn(sent.name);
  }

  /** The page listens to events of this name from now on. */
  listens(name: PageEventName): void {
    this.#listening.add(name);
    if (this.#countUnderWay(name) === 0) this.#goOn(name);
  }

  /** The page is loaded (again): it listens to nothing yet. */
  pageBegins(): void {
    const sent = [...this.#underWay].map(([sentAs, one]): InLine => ({ ...one, sentAs }));
    const commands = [...sent, ...this.#line].filter(({ name }) => name === 'menu-command');
    this.#underWay.clear();
    this.#listening.clear();
    this.#waiting.clear();
    this.#leftOut = null;
    this.#line = [];
    for (const command of commands) this.#putInLine(command);
  }

  #goOn(name: PageEventName): void {
    if (name === 'notice' || name === 'menu-command') {
      const next = this.#line.find((entry) => entry.name === name);
      if (next === undefined) return;
      this.#line = this.#line.filter((entry) => entry !== next);
      this.#go(name, next.event);
    } else if (this.#waiting.has(name)) {
      const event = this.#waiting.get(name);
      this.#waiting.delete(name);
      this.#go(name, event);
    }
  }

  #putReadings(event: Readings): void {
    const missedFromSeq = this.#missedBefore(event);
    if (this.#countUnderWay('readings') >= READINGS_UNDER_WAY_MAX) {
      this.#leftOut = {
        pullId: event.pullId,
        basis: event.basis,
        fromSeq: missedFromSeq ?? event.columns.firstSeq,
      };
      return;
    }
    this.#leftOut = null;
    this.#go('readings', { ...event, missedFromSeq });
  }

  /** Earliest reading that the page does not have because of us or of the recorder. */
  #missedBefore(event: Readings): number | null {
    const ours = this.#leftOut;
    if (ours === null || ours.pullId !== event.pullId || ours.basis !== event.basis)
      return event.missedFromSeq;
    return Math.min(ours.fromSeq, event.missedFromSeq ?? ours.fromSeq);
  }

  #putInLine(entry: InLine): void {
    // Pressed again because nothing came: it is meant once.
    if (!this.#listening.has(entry.name) && this.#line.some((one) => isSameCommand(one, entry))) return;
    if (this.#line.length >= LINE_MAX) this.#line.shift();
    this.#line.push(entry);
  }

  #countUnderWay(name: PageEventName): number {
    let count = 0;
    for (const other of this.#underWay.values()) if (other.name === name) count++;
    return count;
  }

  #go(name: PageEventName, event: unknown): void {
    const number = ++this.#lastNumber;
    this.#underWay.set(number, { name, event });
    this.#send(number, name, event);
  }
}

function isSameCommand(a: InLine, b: InLine): boolean {
  return (
    a.name === 'menu-command' &&
    b.name === 'menu-command' &&
    (a.event as Command).command === (b.event as Command).command
  );
}

export function isPageEventName(name: unknown): name is PageEventName {
  return typeof name === 'string' && Object.hasOwn(pageEvents, name);
}
