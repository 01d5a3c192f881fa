/** Photos of the broken specimen: from a file or the camera, both asked for outside of this page; withdrawn with a reason. */
import { type Signal, signal, useSignal } from '@preact/signals';
import { useEffect } from 'preact/hooks';
import type { KeptPhoto } from '../../core/contract/photo-requests.ts';
import { TEXT_LENGTH_MAX } from '../../core/limits.ts';
import { Button } from '../design/button.tsx';
import { FaultBlock, Field } from '../design/field.tsx';
import { say } from '../design/said.tsx';
import { fixed } from '../numbers/format.ts';
import { person } from '../stations/set/person.ts';
import { errand } from '../store/errand.ts';
import { HeldTyping, useHeldTyping } from '../store/held-typing.ts';
import { request } from '../store/session-store.ts';
import { language, theme } from '../store/view-settings.ts';
import { words } from '../words/words.ts';
import { ReasonedAct } from './reasoned-act.tsx';
import './trail.css';

const adding = errand();
const withdrawing = errand();

/** Of the next photo, by pull. */
const held = new HeldTyping<{ readonly caption: Signal<string> }>('caption');

export function PullPhotos({ pullId }: { readonly pullId: number }) {
  const text = words.value.trail;
  const photos = useSignal<readonly KeptPhoto[]>([]);
  const { caption } = useHeldTyping(held, pullId, () => ({ caption: signal('') }));
  const load = async (): Promise<void> => {
    const answer = await request('photo.list', { pullId });
    if (answer.ok) photos.value = answer.value.photos;
  };
  useEffect(() => void load(), [pullId]);
  const add = async (from: 'file' | 'camera'): Promise<void> => {
    const [by, shows] = [person.value.trim(), caption.value.trim()];
    const said = { pullId, ...(by === '' ? {} : { by }), ...(shows === '' ? {} : { caption: shows }) };
    const done = await adding.run(() =>
      from === 'file'
        ? request('window.add-photo', said)
        : request('window.take-photo', {
            ...said,
            looks: { language: language.value, theme: theme.value },
          }),
    );
    if (done?.photo === undefined || done.photo === null) return;
    caption.value = '';
    await load();
    say(text.photoKept(nameOf(done.photo)));
  };
  return (
    <section class="block" aria-labelledby="photos-title">
      <h2 id="photos-title">{text.photos}</h2>
      {photos.value.length === 0 ? <p class="pencil">{text.noPhotos}</p> : null}
      <ul class="photos">
        {photos.value.map((photo) => (
          <Photo key={photo.photoId} photo={photo} onChange={() => void load()} />
        ))}
      </ul>
      <div class="note-fields">
        <Field
          label={text.caption}
          value={caption.value}
          lengthMax={TEXT_LENGTH_MAX}
          onInput={(value) => (caption.value = value)}
        />
      </div>
      <FaultBlock fault={adding.fault.value} />
      <div class="actions">
        <Button id="add-photo" onPress={() => void add('file')}>
          {text.addPhoto}
        </Button>
        <Button id="take-photo" onPress={() => void add('camera')}>
          {text.takePhoto}
        </Button>
      </div>
    </section>
  );
}

const nameOf = ({ caption, fileName }: KeptPhoto): string => caption ?? fileName;

function Photo({ photo, onChange }: { readonly photo: KeptPhoto; readonly onChange: () => void }) {
  const text = words.value.trail;
  const asking = useSignal(false);
  const address = useSignal<string | null>(null);
  const { photoId, mediaType, withdrawn, widthPx, heightPx, byteCount, sha256 } = photo;
  useEffect(() => {
    let gone = false;
    void request('photo.get', { photoId }).then((answer) => {
      if (gone || !answer.ok) return;
      const reader = new FileReader();
      reader.onload = () => {
        if (!gone && typeof reader.result === 'string') address.value = reader.result;
      };
      // A copy of its own: what a message brings may lie in memory that is shared. An address of the blob itself is
      // not shown under the page's own scheme.
      reader.readAsDataURL(new Blob([new Uint8Array(answer.value.bytes)], { type: mediaType }));
    });
    return () => {
      gone = true;
    };
  }, [photoId]);
  return (
    <li>
      {address.value === null ? null : <img src={address.value} alt={nameOf(photo)} />}
      <p>
        <bdi>{nameOf(photo)}</bdi>
      </p>
      <p class="pencil small">
        {text.photoFacts(`${String(widthPx)} × ${String(heightPx)}`, fixed(byteCount, 0, language.value))} ·{' '}
        <span class="number">SHA-256 {sha256.slice(0, 16)}…</span>
      </p>
      {withdrawn === null ? (
        <Button kind="compact" name={text.withdrawOne(nameOf(photo))} onPress={() => (asking.value = true)}>
          {text.withdraw}
        </Button>
      ) : (
        <p class="void-mark">
          <bdi>{text.withdrawn(withdrawn.by ?? text.nobody, withdrawn.reason)}</bdi>
        </p>
      )}
      {asking.value ? (
        <ReasonedAct
          subject={`withdraw-photo ${String(photoId)}`}
          title={text.withdrawOne(nameOf(photo))}
          means={text.withdrawMeans}
          act={text.withdrawAct}
          errand={withdrawing}
          onClose={() => (asking.value = false)}
          onAct={async (given) => {
            const done = await withdrawing.run(() => request('photo.withdraw', { photoId, ...given }));
            if (done !== null) onChange();
            return done !== null;
          }}
        />
      ) : null}
    </li>
  );
}
