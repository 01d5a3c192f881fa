/** Readout: choose where readings come from and how their lines are read; look at both before anything is recorded. */
import { batch, useSignal } from '@preact/signals';
import { Fragment } from 'preact';
import { useEffect, useId } from 'preact/hooks';
import type { ReadoutProfile } from '../../../core/contract/readout-profile.ts';
import type { ListedPort, Source } from '../../../core/contract/source.ts';
import { Button } from '../../design/button.tsx';
import { FaultBlock } from '../../design/field.tsx';
import { ReadoutInstruments } from '../../instruments/chosen-instruments.tsx';
import { asShown, fixed } from '../../numbers/format.ts';
import { errand } from '../../store/errand.ts';
import { goTo } from '../../store/place.ts';
import {
  archiveGeneration,
  learning,
  previewLines,
  recording,
  request,
  secondLines,
  session,
} from '../../store/session-store.ts';
import { language } from '../../store/view-settings.ts';
import { told } from '../../words/told.ts';
import { words } from '../../words/words.ts';
import { ChannelFactors } from './channel-factors.tsx';
import { ControlLinesEntry } from './control-lines.tsx';
import { LearnLines } from './learn-lines.tsx';
import { LineTable, withoutOne } from './line-table.tsx';
import { NameNumbers } from './name-numbers.tsx';
import { KeptProfileFromFile } from './profile-from-file.tsx';
import { numberNamed } from './number-named.ts';
import {
  chosenSource,
  letGoOfPicked,
  offerLearnt,
  pickedControlLines,
  pickedProfiles,
  pickedSecond,
  pickedSource,
  typedPath,
} from './readout-form.ts';
import { SaveProfile } from './save-profile.tsx';
import {
  choiceMade,
  isLearntOfSecond,
  profileWords,
  readoutChoice,
  speechOf,
  speechOfProfile,
  suggestedProfile,
  typedSource,
} from './readout-choice.ts';
import { OpenSecond, SecondInstrument } from './second-instrument.tsx';
import { SourceList } from './source-list.tsx';
import { WayOn, kindOf } from '../marked-step.tsx';
import '../station.css';
import './learn.css';
import './readout-station.css';

interface OfferedProfile {
  readonly profile: ReadoutProfile;
  readonly builtIn: boolean;
}

const opening = errand();
const looking = errand();

export function ReadoutStation() {
  const readout = session.value?.readout ?? null;
  const second = session.value?.second ?? null;
  const learnt = learning.value?.state === 'done' ? learning.value : null;
  const proposal = learnt?.proposal ?? null;
  return (
    <div class="station split readout">
      <div class="block">
        {learnt !== null && proposal !== null ? (
          <NameNumbers
            key={learnt.from}
            proposal={proposal}
            from={learnt.from}
            source={learnt.source}
            isListenedTo={(profile) => !isLearntOfSecond(readoutChoice.value, learnt.source, profile)}
            onKept={(profile) => {
              offerLearnt(learnt.source, profile);
            }}
          />
        ) : readout !== null ? (
          <OpenReadout />
        ) : (
          <ChooseReadout />
        )}
      </div>
      <div class="block">
        {readout !== null ? (
          <LineTable lines={previewLines.value} readout={readout} />
        ) : learnt !== null ? (
          <LineTable lines={learnt.lines} readout={null} head={words.value.learn.proposedLines} />
        ) : (
          <p class="empty">{words.value.readout.waitsForOpen}</p>
        )}
        {second === null ? null : (
          <LineTable
            lines={secondLines.value}
            readout={second.readout}
            head={words.value.learn.secondIs(told(second.readout.words), told(second.readout.profileName))}
          />
        )}
      </div>
    </div>
  );
}

function ChooseReadout() {
  const text = words.value.readout;
  const ports = useSignal<readonly ListedPort[]>([]);
  const note = useSignal<string | null>(null);
  const profiles = useSignal<readonly OfferedProfile[]>([]);
  const chosen = chosenSource();
  const [profileNames, lines, second] = [pickedProfiles, pickedControlLines, pickedSecond];
  /** Counts files that were saved: what was wrong with one before is told no longer. */
  const savedFiles = useSignal(0);
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

  const speech = speechOf(chosen);
  // Another archive may not have the profile that was picked.
  const isOffered = (asked: string | null): boolean =>
    profiles.value.some((one) => one.profile.name === asked);
  const pickedName = profileNames.value[speech];
  const name = isOffered(pickedName)
    ? pickedName
    : suggestedProfile(profiles.value, chosen, readoutChoice.value.profileNames);
  const chooseProfile = (chosenName: string): void => {
    batch(() => {
      profileNames.value = { ...profileNames.value, [speech]: chosenName };
      lines.value = null;
    });
  };
  const takeKept = (kept: ReadoutProfile): void => {
    // A select takes only what it already offers.
    void lookForProfiles().then(() => {
      batch(() => {
        chooseProfile(kept.name);
        // Often the file is chosen before the port is: it stays chosen for what speaks as it says.
        profileNames.value = { ...profileNames.value, [speechOfProfile(kept)]: kept.name };
      });
    });
  };
  const named = profiles.value.find((p) => p.profile.name === name)?.profile;
  const controlLines = lines.value ?? named?.controlLines ?? {};
  const profile =
    named === undefined || lines.value === null ? named : { ...named, controlLines: lines.value };
  const secondProfile = profiles.value.find((p) => p.profile.name === second.value?.profileName)?.profile;
  const sourceMissing = isNoSource(chosen) || (chosen.kind === 'simulated' && chosen.scenario === '');

  const listen = async () => {
    if (profile === undefined) return;
    const its = second.value;
    const beside =
      its === null || secondProfile === undefined
        ? {}
        : { second: { source: typedSource(its.path), profile: secondProfile } };
    const opened = await opening.run(() => request('readout.open', { source: chosen, profile, ...beside }));
    if (opened === null) return;
    readoutChoice.value = { ...choiceMade(readoutChoice.value, chosen, profile.name), second: its };
    letGoOfPicked();
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
          batch(() => {
            // Each scenario speaks in a profile of its own.
            if (source.kind === 'simulated') profileNames.value = { ...profileNames.value, simulated: null };
            if (speechOf(source) !== speech) lines.value = null;
            pickedSource.value = source;
            // Unplugged meanwhile it stands there as what was picked by its path.
            if ('identity' in source && source.kind === 'serial') typedPath.value = source.path;
          });
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
          onChange={(event) => {
            chooseProfile(event.currentTarget.value);
          }}
        >
          {profiles.value.map(({ profile: p }) => (
            <option key={p.name} value={p.name}>
              {told(p.name)}
            </option>
          ))}
        </select>
        {profile === undefined ? null : <p class="profile-more">{profileWords(profile)}</p>}
        <div class="profile-files">
          {/* First, since it is there before a profile is chosen: what comes beside it moves nothing. */}
          <KeptProfileFromFile key={savedFiles.value} onKept={takeKept} />
          {named === undefined ? null : <SaveProfile profile={named} onSaved={() => savedFiles.value++} />}
        </div>
      </div>
      <FaultBlock fault={opening.fault.value} />
      <div class="actions next-step">
        <Button
          kind={kindOf('readout')}
          id="listen"
          notNow={
            sourceMissing
              ? text.byHandHint
              : profile === undefined
                ? text.profileHint
                : chosen.kind !== 'simulated' &&
                    second.value !== null &&
                    isNoSource(typedSource(second.value.path))
                  ? words.value.learn.secondPortMissing
                  : chosen.kind !== 'simulated' && second.value !== null && secondProfile === undefined
                    ? words.value.learn.secondProfileMissing
                    : undefined
          }
          onPress={() => void listen()}
        >
          {opening.busy.value ? text.opening : text.open}
        </Button>
        <WayOn beside={[]} />
      </div>
      {/* Below the next step, which stays where it was. */}
      <LearnLines chosen={chosen} controlLines={controlLines} />
      {chosen.kind === 'serial' ? (
        <ControlLinesEntry lines={controlLines} onChange={(changed) => (lines.value = changed)} />
      ) : null}
      {named === undefined || chosen.kind === 'simulated' ? null : (
        <ChannelFactors
          profile={named}
          builtIn={profiles.value.filter((one) => one.builtIn).map((one) => one.profile.name)}
          onKept={takeKept}
        />
      )}
      {chosen.kind === 'simulated' ? null : (
        <SecondInstrument
          chosen={second.value}
          ports={ports.value}
          profiles={profiles.value}
          onChange={(changed) => (second.value = changed)}
        />
      )}
    </>
  );
}

/** Nothing, or no whole address, is typed. */
const isNoSource = (source: Source): boolean => source.kind === 'serial' && source.path.trim() === '';

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
        <strong>{told(readout.words)}</strong>
        <p class="pencil">
          {told(readout.profileName)} ·{' '}
          {words.value.known.readingsPerS(fixed(readout.readingsPerS, 0, language.value))}
        </p>
        <OpenSecond />
        <dl class="channel-list">
          {[...readout.channels, ...(session.value?.second?.readout.channels ?? [])].map(
            ({ key, quantity }) => {
              // Each line stands from the beginning, so that nothing below moves when the first reading comes.
              const value = live.find((one) => one.key === key);
              return (
                <Fragment key={key}>
                  <dt>{told(key)}</dt>
                  <dd class="number">
                    {value === undefined
                      ? '–'
                      : value.status === 'ok'
                        ? asShown(withoutOne(value.shownText), language.value)
                        : figures[value.status]}
                  </dd>
                  <dd class="pencil small">{numberNamed(key, quantity).is}</dd>
                </Fragment>
              );
            },
          )}
        </dl>
      </section>
      <FaultBlock fault={opening.fault.value} />
      <div class="actions">
        <Button kind={kindOf('pull')} id="to-pull" onPress={() => goTo('pull')}>
          {text.toPull}
        </Button>
        <WayOn beside={['pull']} />
        <Button
          id="stop-listening"
          notNow={recording.value ? text.recordingNow : undefined}
          onPress={() => void opening.run(() => request('readout.close', {}))}
        >
          {text.close}
        </Button>
      </div>
      {/* Below the next step, which what is told here of the calibration would move. */}
      <ReadoutInstruments readout={readout.profileId} />
    </>
  );
}
