/** The board: one specimen's arithmetic written large over the whole window, step by step, then its curve. */
import { useSignal } from '@preact/signals';
import { useEffect } from 'preact/hooks';
import { type Beat, type BoardStep, boardBeats, boardSteps, sameBeat } from '../../core/board/board-steps.ts';
import { Button } from '../design/button.tsx';
import { useModal } from '../design/modal.ts';
import { ReadingsMark } from '../design/readings-mark.tsx';
import { SymbolText } from '../design/symbol-text.tsx';
import { KeptPlots } from '../stations/result/kept-plots.tsx';
import type { OpenedPull } from '../store/kept-pull.ts';
import { request } from '../store/session-store.ts';
import { units } from '../store/view-settings.ts';
import { told } from '../words/told.ts';
import { words } from '../words/words.ts';
import './board.css';

export function BoardButton({ opened }: { readonly opened: OpenedPull }) {
  const shown = useSignal(false);
  if (opened.evaluation.value === null) return null;
  return (
    <>
      <Button kind="compact" id="to-board" onPress={() => (shown.value = true)}>
        {words.value.board.open}
      </Button>
      {shown.value ? <Board opened={opened} onClose={() => (shown.value = false)} /> : null}
    </>
  );
}

/** A class at the back needs every line of the screen. Returns what gives the screen back as it was. */
function wholeScreen(): () => void {
  const taken = request('window.set-full-screen', { on: true });
  return () =>
    void taken.then((answer) => {
      if (answer.ok && !answer.value.before) void request('window.set-full-screen', { on: false });
    });
}

const FORWARD: ReadonlySet<string> = new Set([' ', 'ArrowRight', 'ArrowDown', 'PageDown']);
const BACK: ReadonlySet<string> = new Set(['ArrowLeft', 'ArrowUp', 'PageUp', 'Backspace']);

function Board({ opened, onClose }: { readonly opened: OpenedPull; readonly onClose: () => void }) {
  const text = words.value.board;
  const modal = useModal(onClose);
  const hidden = useSignal(false);
  const at = useSignal(0);
  useEffect(() => {
    modal.ref.current?.querySelector<HTMLElement>('#board-on')?.focus();
    return wholeScreen();
  }, []);
  const steps = boardSteps(opened.evaluation.value?.results ?? [], units.value);
  const curve = opened.kept.value !== null && opened.kept.value.typed === null;
  const beatsOf = (isHidden: boolean) => boardBeats(steps.length, { hidden: isHidden, curve });
  const beats = beatsOf(hidden.value);
  const place = Math.min(at.value, beats.length - 1);
  const beat = beats[place];
  const move = (by: number) => (at.value = Math.max(0, Math.min(beats.length - 1, place + by)));
  const hide = () => {
    at.value = sameBeat(beat, beatsOf(!hidden.value));
    hidden.value = !hidden.value;
  };
  return (
    <dialog
      {...modal}
      class="board"
      aria-label={text.title(opened.kept.value?.specimenName ?? '')}
      onKeyDown={(event) => {
        if (event.ctrlKey || event.altKey || event.metaKey) return;
        // On a focused button Space presses it; here it always goes on.
        if (FORWARD.has(event.key)) move(1);
        else if (BACK.has(event.key)) move(-1);
        else if (event.key.toLowerCase() === 'h') hide();
        else return;
        event.preventDefault();
      }}
    >
      <header class="board-head">
        <strong>{opened.kept.value?.specimenName}</strong>
        <ReadingsMark readings={opened.kept.value?.readings} />
        {(opened.kept.value?.typed ?? null) === null ? null : <em>{words.value.typed.mark}</em>}
        <span class="board-place">{text.place(String(place + 1), String(beats.length))}</span>
        <Button kind="compact" pressed={hidden.value} onPress={hide}>
          {text.hide}
        </Button>
        <Button kind="compact" onPress={modal.onClose}>
          {words.value.common.close}
        </Button>
      </header>
      {beat === undefined ? (
        <p class="empty">{text.nothing}</p>
      ) : (
        <BoardPage steps={steps} beat={beat} opened={opened} />
      )}
      <footer class="board-foot">
        <Button onPress={() => move(-1)}>{text.back}</Button>
        <span class="pencil">{text.keys}</span>
        <Button kind="call" id="board-on" onPress={() => move(1)}>
          {text.forward}
        </Button>
      </footer>
    </dialog>
  );
}

interface PageProps {
  readonly steps: readonly BoardStep[];
  readonly beat: Beat;
  readonly opened: OpenedPull;
}

function BoardPage({ steps, beat, opened }: PageProps) {
  const done = beat.kind === 'curve' ? steps : steps.slice(0, beat.step);
  const step = beat.kind === 'curve' ? undefined : steps[beat.step];
  return (
    <div class="board-page" aria-live="polite">
      <p class="board-done">
        {done.map((one) => (
          <span key={one.symbol}>
            <SymbolText text={`${one.symbol} = ${one.answer}`} />
          </span>
        ))}
      </p>
      {step === undefined ? (
        <div class="board-curve">
          <KeptPlots opened={opened} />
        </div>
      ) : (
        <StepLines step={step} kind={beat.kind} />
      )}
    </div>
  );
}

function StepLines({ step, kind }: { readonly step: BoardStep; readonly kind: Beat['kind'] }) {
  const rounded = !step.unrounded.startsWith(step.answer);
  return (
    <div class="board-step">
      <h2>
        <SymbolText text={told(step.name)} />
      </h2>
      <p class="board-formula">
        <SymbolText text={told(step.formula)} />
      </p>
      {step.given.map((line) => (
        <p class="board-given" key={line}>
          <SymbolText text={told(line)} />
        </p>
      ))}
      {kind === 'formula' ? null : (
        <p class="board-numbers">
          <SymbolText text={told(step.numbers)} /> ={' '}
          {kind === 'question' ? <strong class="board-ask">?</strong> : <SymbolText text={step.unrounded} />}
        </p>
      )}
      {kind === 'answer' ? (
        <p class="board-answer">
          <span>
            <SymbolText text={`${step.symbol} ${rounded ? '≈' : '='} ${step.answer}`} />
          </span>
        </p>
      ) : null}
    </div>
  );
}
