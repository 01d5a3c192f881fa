/** Readout: choose where readings come from and how their lines are read; look at both before anything is recorded. */
import { useSignal } from '@preact/signals';
import { useEffect, useId } from 'preact/hooks';
import type { ReadoutProfile } from '../../../core/contract/readout-profile.ts';
import type { ListedPort, Source } from '../../../core/contract/source.ts';
import { Button } from '../../design/button.tsx';
import { FaultBlock } from '../../design/field.tsx';
import { fixed } from '../../numbers/format.ts';
import { errand } from '../../store/errand.ts';
import { goTo } from '../../store/place.ts';
import { archiveGeneration, recording, request, session } from '../../store/session-store.ts';
import { language } from '../../store/view-settings.ts';
import { words } from '../../words/words.ts';
import { LineTable } from './line-table.tsx';
import { ProfileFromFile } from './profile-from-file.tsx';
import { profileWords, readoutChoice, simulatedSource, suggestedProfile } from './readout-choice.ts';
import { SourceList } from './source-list.tsx';
import '../station.css';
import './readout-station.css';

interface OfferedProfile {
  readonly profile: ReadoutProfile;
  readonly builtIn: boolean;
}

const opening = errand();
const looking = errand();

export function ReadoutStation() {
  const open = (session.value?.readout ?? null) !== null;
  return (
    <div class="station split readout">
      <div class="block">{open ? <OpenReadout /> : <ChooseReadout />}</div>
      <div class="block">
        {open ? <LineTable /> : <p class="empty">{words.value.readout.waitsForOpen}</p>}
      </div>
    </div>
  );
}

function ChooseReadout() {
  const text = words.value.readout;
  const ports = useSignal<readonly ListedPort[]>([]);
  const note = useSignal<string | null>(null);
  const profiles = useSignal<readonly OfferedProfile[]>([]);
  const picked = useSignal<Source | null>(readoutChoice.value.source);
  const chosen = picked.value ?? simulatedSource();
  const typedPath = useSignal(chosen.kind === 'serial' ? chosen.path : '');
  const profileName = useSignal<string | null>(null);
  const profileId = useId();
  const connected = session.value !== null;

  const look = async () => {
    const found = await looking.run(() => request('port.list', {}));
    if (found === null) return;
    ports.value = found.ports;
    note.value = found.note;
  };
  const lookForProfiles = async () => {
    const answer = await request('readout.profiles', {});
    if (answer.ok) profiles.value = answer.value.profiles;
    else opening.fault.value = answer.fault;
  };
  useEffect(() => {
    if (!connected) return;
    void look();
    void lookForProfiles();
  }, [connected, archiveGeneration.value]);

  const name = profileName.value ?? suggestedProfile(profiles.value, chosen, readoutChoice.value.profileName);
  const profile = profiles.value.find((p) => p.profile.name === name)?.profile;
  const sourceMissing =
    (chosen.kind === 'serial' && chosen.path.trim() === '') ||
    (chosen.kind === 'simulated' && chosen.scenario === '');

  const listen = async () => {
    if (profile === undefined) return;
    const opened = await opening.run(() => request('readout.open', { source: chosen, profile }));
    if (opened !== null) readoutChoice.value = { source: chosen, profileName: profile.name };
  };

  return (
    <>
      {readoutChoice.value.source === null ? <p class="first-run">{text.firstRun}</p> : null}
      <SourceList
        ports={ports.value}
        note={note.value}
        chosen={chosen}
        onChoose={(source) => {
          opening.fault.value = null;
          // Another kind of source wants another profile; a choice made for the same kind stands.
          if (source.kind !== chosen.kind || source.kind === 'simulated') profileName.value = null;
          picked.value = source;
        }}
        onRefresh={() => void look()}
        typedPath={typedPath.value}
        onTypePath={(path) => (typedPath.value = path)}
      />
      <FaultBlock fault={looking.fault.value} />
      <div class="field">
        <label for={profileId}>
          {text.profile} <span class="hint">{text.profileHint}</span>
        </label>
        <select
          id={profileId}
          class="entry"
          value={name ?? ''}
          onChange={(event) => (profileName.value = event.currentTarget.value)}
        >
          {profiles.value.map(({ profile: p }) => (
            <option key={p.name} value={p.name}>
              {p.name}
            </option>
          ))}
        </select>
        {profile === undefined ? null : <p class="profile-more">{profileWords(profile)}</p>}
        <ProfileFromFile
          onKept={(kept) => {
            // A select takes only what it already offers.
            void lookForProfiles().then(() => (profileName.value = kept.name));
          }}
        />
      </div>
      <FaultBlock fault={opening.fault.value} />
      <div class="actions">
        <Button
          kind="call"
          id="listen"
          notNow={sourceMissing ? text.byHandHint : profile === undefined ? text.profileHint : undefined}
          onPress={() => void listen()}
        >
          {opening.busy.value ? text.opening : text.open}
        </Button>
      </div>
    </>
  );
}

function OpenReadout() {
  const text = words.value.readout;
  const figures = words.value.figures;
  const readout = session.value?.readout ?? null;
  if (readout === null) return null;
  const live = session.value?.live ?? [];
  return (
    <>
      <section class="listening-to" aria-label={text.listeningTo}>
        <p class="pencil small">{text.listeningTo}</p>
        <strong>{readout.words}</strong>
        <p class="pencil">
          {readout.profileName} ·{' '}
          {words.value.known.readingsPerS(fixed(readout.readingsPerS, 0, language.value))}
        </p>
        <dl class="channel-list">
          {live.map((value) => (
            <>
              <dt>{value.key}</dt>
              <dd class="number">{value.status === 'ok' ? value.shownText : figures[value.status]}</dd>
              <dd class="pencil small">{value.quantity}</dd>
            </>
          ))}
        </dl>
      </section>
      <FaultBlock fault={opening.fault.value} />
      <div class="actions">
        <Button kind="call" id="to-pull" onPress={() => goTo('pull')}>
          {text.toPull}
        </Button>
        <Button
          id="stop-listening"
          notNow={recording.value ? text.recordingNow : undefined}
          onPress={() => void opening.run(() => request('readout.close', {}))}
        >
          {text.close}
        </Button>
      </div>
    </>
  );
}
