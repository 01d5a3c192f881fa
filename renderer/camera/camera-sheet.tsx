/** Shows the camera; a press takes the picture, the next keeps it or takes it again. Escape closes without one. */
import { useSignal } from '@preact/signals';
import { useEffect, useRef } from 'preact/hooks';
import type { CameraBridge } from '../../core/contract/camera-messages.ts';
import { Button } from '../design/button.tsx';
import { drawnAtOnce } from '../design/drawn-at-once.ts';
import { words } from '../words/words.ts';
import { camerasThere, drawPicture, jpegOf, letGo, openCamera, whyNot } from './camera-picture.ts';
import './camera-sheet.css';

export function CameraSheet({ bridge }: { readonly bridge: CameraBridge }) {
  const text = words.value.camera;
  const video = useRef<HTMLVideoElement>(null);
  const picture = useRef<HTMLCanvasElement>(null);
  const stream = useRef<MediaStream | null>(null);
  const taken = useSignal(false);
  const cameras = useSignal<readonly MediaDeviceInfo[]>([]);
  const chosen = useSignal('');

  const show = async (deviceId: string | null): Promise<void> => {
    letGo(stream.current);
    stream.current = null;
    try {
      const opened = await openCamera(deviceId);
      stream.current = opened;
      if (video.current === null) throw new Error('The sheet has no place for the picture.');
      video.current.srcObject = opened;
      await video.current.play();
      chosen.value = opened.getVideoTracks()[0]?.getSettings().deviceId ?? '';
      cameras.value = await camerasThere();
      bridge.say({ what: 'shown' });
      document.getElementById('take')?.focus();
    } catch (error) {
      letGo(stream.current);
      bridge.say({ what: 'failed', ...whyNot(error) });
    }
  };
  const turnTo = (isTaken: boolean): void => {
    drawnAtOnce(() => (taken.value = isTaken));
    document.getElementById(isTaken ? 'keep' : 'take')?.focus();
  };
  const take = (): void => {
    if (video.current === null || picture.current === null || video.current.videoWidth === 0) return;
    drawPicture(video.current, picture.current);
    turnTo(true);
  };
  const keep = async (): Promise<void> => {
    const bytes = picture.current === null ? null : await jpegOf(picture.current);
    letGo(stream.current);
    bridge.say(
      bytes === null
        ? { what: 'failed', why: 'other', detail: 'no JPEG could be made of the picture' }
        : { what: 'taken', bytes },
    );
  };
  const close = (): void => {
    letGo(stream.current);
    bridge.say({ what: 'closed' });
  };
  useEffect(() => {
    void show(null);
    const onKey = (event: KeyboardEvent): void => {
      if (event.key === 'Escape') close();
      // A key that is held must not take a picture and keep it unseen.
      else if (event.repeat && event.key === 'Enter') event.preventDefault();
    };
    document.addEventListener('keydown', onKey);
    return () => document.removeEventListener('keydown', onKey);
  }, []);

  return (
    <main class="camera-sheet">
      <h1>{text.title}</h1>
      <p class="pencil" role="status">
        {taken.value ? text.taken : text.live}
      </p>
      <div class="camera-picture">
        <video ref={video} muted playsInline aria-label={text.live} hidden={taken.value} />
        <canvas ref={picture} role="img" aria-label={text.taken} hidden={!taken.value} />
      </div>
      <div class="camera-controls">
        {taken.value ? (
          <>
            <Button key="again" id="again" onPress={() => turnTo(false)}>
              {text.again}
            </Button>
            <Button key="keep" id="keep" kind="call" onPress={() => void keep()}>
              {text.keep}
            </Button>
          </>
        ) : (
          <Button key="take" id="take" kind="call" onPress={take}>
            {text.take}
          </Button>
        )}
        {cameras.value.length > 1 && !taken.value ? (
          <label class="camera-choice">
            {text.which}
            <select value={chosen.value} onChange={(event) => void show(event.currentTarget.value)}>
              {cameras.value.map(({ deviceId, label }, index) => (
                <option key={deviceId} value={deviceId}>
                  {label === '' ? text.unnamed(String(index + 1)) : label}
                </option>
              ))}
            </select>
          </label>
        ) : null}
        <Button key="close" kind="quiet" onPress={close}>
          {text.close}
        </Button>
      </div>
    </main>
  );
}
