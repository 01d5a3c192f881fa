/** How the page shows things (ground, size of the digits, language), and the ways to what has no place on the rail. */
import { type Signal, useSignal } from '@preact/signals';
import { useEffect, useRef } from 'preact/hooks';
import { Button } from '../design/button.tsx';
import { Choice } from '../design/field.tsx';
import { SoundChoice } from '../design/sound-control.tsx';
import { NUMBER_FORMS, NUMBER_SAMPLES } from '../numbers/number-form.ts';
import { doingShown } from '../doing/doing-shown.ts';
import { guideShown } from '../guide/guide-shown.ts';
import { keysShown } from '../keys/keys-shown.ts';
import { goTo } from '../store/place.ts';
import { menuSheet } from '../keys/menu-sheets.tsx';
import { beginTour, tourNotNow } from '../tour/tour.ts';
import { chooseTheme } from '../store/theme-choice.ts';
import { DIGIT_SIZES, changeView, viewSettings } from '../store/view-settings.ts';
import { words } from '../words/words.ts';
import './view-panel.css';

export function ViewPanel() {
  const text = words.value.view;
  const open = useSignal(false);
  const box = useRef<HTMLDivElement>(null);
  useEffect(() => {
    if (!open.value) return;
    const outside = (event: PointerEvent) => {
      if (event.target instanceof Node && box.current?.contains(event.target) !== true) open.value = false;
    };
    document.addEventListener('pointerdown', outside);
    return () => document.removeEventListener('pointerdown', outside);
  }, [open.value]);
  const settings = viewSettings.value;
  const lead = (sheet: Signal<boolean>): void => {
    open.value = false;
    sheet.value = true;
  };
  return (
    <div
      class="view-panel"
      ref={box}
      onKeyDown={(event) => {
        if (event.key !== 'Escape' || !open.value) return;
        open.value = false;
        document.getElementById('view')?.focus();
      }}
      // It lies over the page, where the focus that has left it would be hidden.
      onFocusOut={({ relatedTarget, currentTarget }) => {
        if (relatedTarget instanceof Node && !currentTarget.contains(relatedTarget)) open.value = false;
      }}
    >
      <Button kind="compact" id="view" expanded={open.value} onPress={() => (open.value = !open.value)}>
        {text.name}
      </Button>
      {open.value ? (
        <div class="panel" role="group" aria-label={text.name}>
          <div class="panel-column">
            <Choice
              name={text.theme}
              showName
              options={(['system', 'chalk', 'soot', 'contrast'] as const).map((value) => ({
                value,
                label: text[value],
              }))}
              value={settings.theme}
              onChoose={chooseTheme}
            />
            <Choice
              name={text.language}
              showName
              options={(['en', 'es'] as const).map((value) => ({ value, label: text[value] }))}
              value={settings.language}
              onChoose={(value) => changeView({ language: value })}
            />
            <SoundChoice />
          </div>
          <div class="panel-column">
            <Choice
              name={text.digits}
              showName
              options={DIGIT_SIZES.map((size) => ({
                value: size,
                label: size === 'fit' ? text.digitsFit : text.digitsMm(size),
              }))}
              value={settings.digitsMm}
              onChoose={(digitsMm) => changeView({ digitsMm })}
            />
            <Choice
              name={text.numbers}
              showName
              options={NUMBER_FORMS.map((value) => ({
                value,
                label: value === 'language' ? text.numberAsLanguage : NUMBER_SAMPLES[value],
              }))}
              value={settings.numbers}
              onChoose={(value) => changeView({ numbers: value })}
            />
            <p class="pencil small">{text.numbersTyped}</p>
          </div>
          <div class="panel-ways">
            {(['instruments', 'people', 'self-check'] as const).map((where) => (
              <Button
                key={where}
                kind="compact"
                onPress={() => {
                  open.value = false;
                  goTo(where);
                }}
              >
                {words.value.stations[where]}
              </Button>
            ))}
            <Button kind="compact" onPress={() => lead(doingShown)}>
              {words.value.doing.title} (Ctrl+J)
            </Button>
            <Button kind="compact" onPress={() => lead(keysShown)}>
              {text.keys} (F1)
            </Button>
            <Button kind="compact" onPress={() => lead(guideShown)}>
              {words.value.guide.title} (F2)
            </Button>
            <Button
              kind="compact"
              notNow={tourNotNow()}
              onPress={() => {
                open.value = false;
                void beginTour();
              }}
            >
              {words.value.tour.take}
            </Button>
            <Button
              kind="compact"
              onPress={() => {
                open.value = false;
                menuSheet.value = 'about';
              }}
            >
              {words.value.about.title}
            </Button>
          </div>
        </div>
      ) : null}
    </div>
  );
}
