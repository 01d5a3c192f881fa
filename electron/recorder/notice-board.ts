/** Notices that stand now, one a code; each change is told once. */
import type { Notice } from '../../core/contract/notice.ts';

export class NoticeBoard {
  readonly #standing = new Map<string, Notice>();
  readonly #tell: (notice: Notice) => void;
  readonly #wallMs: () => number;

  constructor(tell: (notice: Notice) => void, wallMs: () => number) {
    this.#tell = tell;
    this.#wallMs = wallMs;
  }

  /** The same notice again with the same words is not told again. */
  raise(severity: Notice['severity'], code: string, sentence: string, remedy?: Notice['remedy']): void {
    const standing = this.#standing.get(code);
    if (standing?.sentence === sentence) return;
    const notice: Notice = {
      severity,
      code,
      sentence,
      since: standing?.since ?? this.#wallMs(),
      over: false,
      ...(remedy === undefined ? {} : { remedy }),
    };
    this.#standing.set(code, notice);
    this.#tell(notice);
  }

  /** Something to be read once, that does not stay. */
  mention(severity: Notice['severity'], code: string, sentence: string): void {
    this.#tell({ severity, code, sentence, since: this.#wallMs(), over: true });
  }

  over(code: string): void {
    const standing = this.#standing.get(code);
    if (standing === undefined) return;
    this.#standing.delete(code);
    this.#tell({ ...standing, over: true });
  }

  get standing(): Notice[] {
    return [...this.#standing.values()];
  }
}
