/** Taking pulls elsewhere and bringing them in: one sheet at a time, in the place of the archive's table. */
import type { ComponentChildren } from 'preact';
import { useLayoutEffect, useRef } from 'preact/hooks';
import { Button } from '../design/button.tsx';
import { words } from '../words/words.ts';
import { type ExchangeView, closeExchange, exchangeView } from './exchange-view.ts';
import { ImportSheet } from './import-sheet.tsx';
import { MergeSheet } from './merge-sheet.tsx';
import { OtherArchivesSheet } from './other-archives-sheet.tsx';
import { RestoreSheet } from './restore-sheet.tsx';
import { ResultsSheet } from './results-sheet.tsx';
import { SplitSheet } from './split-sheet.tsx';
import './exchange.css';

const SHEETS: Readonly<Record<ExchangeView, () => ComponentChildren>> = {
  import: () => <ImportSheet />,
  merge: () => <MergeSheet />,
  restore: () => <RestoreSheet />,
  results: () => <ResultsSheet />,
  elsewhere: () => <OtherArchivesSheet />,
  split: () => <SplitSheet />,
};

export function ExchangeSheets() {
  const view = exchangeView.value;
  const head = useRef<HTMLHeadingElement>(null);
  // With the drawing, not a frame later: the next key may come before that.
  useLayoutEffect(() => head.current?.focus(), [view]);
  if (view === null) return null;
  const text = words.value.exchange;
  return (
    <div
      class="station exchange"
      onKeyDown={(event) => {
        if (event.key !== 'Escape' || event.defaultPrevented) return;
        event.preventDefault();
        closeExchange();
      }}
    >
      <div class="opened-head">
        <Button kind="compact" id="leave-exchange" onPress={closeExchange}>
          {words.value.archive.back}
        </Button>
        <h2 ref={head} tabIndex={-1}>
          {text.titles[view]}
        </h2>
      </div>
      <p class="pencil">{text.means[view]}</p>
      {SHEETS[view]()}
    </div>
  );
}
