/** Whether cues sound and how loud, and one to try it: stands where the cues are needed. */
import { words } from '../words/words.ts';
import { Button } from './button.tsx';
import { Choice } from './field.tsx';
import { LOUDNESSES, changeSound, cue, sound } from './sound-cue.ts';
import './sound-control.css';

/** While it is pulled: whether it sounds and how loud, in one button. */
export function SoundSwitch() {
  const text = words.value.sound;
  const { on, loudness } = sound.value;
  return (
    <Button kind="compact" id="sound-on" pressed={on} onPress={() => changeSound({ on: !on })}>
      {on ? `${text.on}: ${text.loudnesses[loudness]}` : text.off}
    </Button>
  );
}

export function SoundControl() {
  const text = words.value.sound;
  const { on, loudness } = sound.value;
  return (
    <div class="sound-control" role="group" aria-label={text.title}>
      <SoundSwitch />
      {on ? (
        <>
          <Choice
            name={text.loudness}
            options={LOUDNESSES.map((value) => ({ value, label: text.loudnesses[value] }))}
            value={loudness}
            onChoose={(value) => {
              changeSound({ loudness: value });
              cue('started');
            }}
          />
          <Button kind="compact" id="sound-try" onPress={() => cue('broken')}>
            {text.tryIt}
          </Button>
        </>
      ) : null}
    </div>
  );
}

/** The same as one choice, where the page's other choices stand; what is chosen is heard. */
export function SoundChoice() {
  const text = words.value.sound;
  const { on, loudness } = sound.value;
  return (
    <Choice
      name={text.title}
      showName
      options={[
        { value: 'off', label: text.off },
        ...LOUDNESSES.map((value) => ({ value, label: text.loudnesses[value] })),
      ]}
      value={on ? loudness : 'off'}
      onChoose={(value) => {
        changeSound(value === 'off' ? { on: false } : { on: true, loudness: value });
        cue('started');
      }}
    />
  );
}
