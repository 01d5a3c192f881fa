/**
 * Between main and a page that may be slow, frozen or dead: nothing piles up. Of snapshots only the newest waits;
 * of readings a few batches are under way, and what does not fit is left out and named, so that the page asks for it.
 */
import type { PageEventName, PageEventOf } from '../../core/contract/bridge.ts';

/** Batches of readings under way: at 60 a second a page may be an eighth of a second behind without asking again. */
const READINGS_UNDER_WAY_MAX = 8;
/** A page that has not taken a hundred notices is frozen; the session snapshot carries those still in force. */
const LINE_MAX = 100;

type Readings = PageEventOf<'readings'>;
/** Sends to the page, with a number that the page gives back when it has taken the message. */
export type Send = (number: number, name: PageEventName, event: unknown) => void;

export class PageOutbox {
  readonly #send: Send;
  #lastNumber = 0;
  readonly #underWay = new Map<number, PageEventName>();
  /** Newest snapshot of each kind that could not go yet. */
  readonly #waiting = new Map<PageEventName, unknown>();
  /** Notices and menu commands are single events: each one counts, so they wait in line. */
  #line: { name: PageEventName; event: unknown }[] = [];
  #leftOut: { pullId: number; basis: number; fromSeq: number } | null = null;

  constructor(send: Send) {
    this.#send = send;
  }

  put<N extends PageEventName>(name: N, event: PageEventOf<N>): void {
    if (name === 'readings') this.#putReadings(event as Readings);
    else if (this.#countUnderWay(name) === 0) this.#go(name, event);
    else if (name === 'notice' || name === 'menu-command') this.#putInLine(name, event);
    else this.#waiting.set(name, event);
  }

  /** The page has taken message `number`; numbers of an earlier page are ignored. */
  taken(number: number): void {
    const name = this.#underWay.get(number);
    if (name === undefined) return;
    this.#underWay.delete(number);
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

  /** A fresh page asks for everything by itself. */
  forget(): void {
    this.#underWay.clear();
    this.#waiting.clear();
    this.#line = [];
    this.#leftOut = null;
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

  #putInLine(name: PageEventName, event: unknown): void {
    if (this.#line.length >= LINE_MAX) this.#line.shift();
    this.#line.push({ name, event });
  }

  #countUnderWay(name: PageEventName): number {
    let count = 0;
    for (const other of this.#underWay.values()) if (other === name) count++;
    return count;
  }

  #go(name: PageEventName, event: unknown): void {
    const number = ++this.#lastNumber;
    this.#underWay.set(number, name);
    this.#send(number, name, event);
  }
}
