/** Certificate: of the open set or one specimen of it, or of a pull whose specimen is in no set. */
import { useEffect } from 'preact/hooks';
import { Button } from '../../design/button.tsx';
import { goTo } from '../../store/place.ts';
import { useSteps } from '../../store/taken-back.ts';
import { words } from '../../words/words.ts';
import { WayOn, kindOf } from '../marked-step.tsx';
import { endedPull } from '../opened-pull.ts';
import { type OpenedSet, openedSet, refreshSet } from '../set/open-set.ts';
import { SelectField } from '../set/select-field.tsx';
import { certifiedMember, certifiedPull, chosenLanguages, paper } from './certificate-choice.ts';
import { CertificateSheet } from './certificate-sheet.tsx';
import { LaboratoryForm } from './laboratory-form.tsx';
import '../station.css';
import './certificate-station.css';

export function CertificateStation() {
  const text = words.value.set.certificate;
  // The pull that somebody came with is left behind with the station.
  useEffect(() => () => void (certifiedPull.value = null), []);
  useSteps({ certifiedPull, certified: certifiedMember, paper, paperLanguage: chosenLanguages });
  const opened = openedSet.value;
  const hasMembers = opened !== null && opened.judged.members.length > 0;
  const pullId = certifiedPull.value ?? (hasMembers ? null : (endedPull.value?.pullId ?? null));
  if (pullId !== null) return <OfPull pullId={pullId} />;
  if (hasMembers) return <OfSet opened={opened} />;
  return (
    <div class="station">
      <p class="empty">{opened === null ? text.none : text.noneOfSet}</p>
      <div class="actions">
        <Button kind={kindOf('set')} onPress={() => goTo('set')}>
          {text.toSet}
        </Button>
        <WayOn beside={['set']} />
      </div>
      <LaboratoryForm />
    </div>
  );
}

function OfPull({ pullId }: { readonly pullId: number }) {
  const text = words.value.set.certificate;
  const held = endedPull.value?.pullId === pullId ? endedPull.value : null;
  return (
    <CertificateSheet
      about={{ pullId }}
      title={text.ofPull(String(pullId))}
      suggestedName={text.ofPull(String(pullId))}
      basis={held?.kept.value ?? null}
      note={text.ofPullMeans}
    >
      {openedSet.value === null ? null : (
        <Button kind="compact" onPress={() => (certifiedPull.value = null)}>
          {text.ofSetInstead(openedSet.value.kept.set.form.name)}
        </Button>
      )}
    </CertificateSheet>
  );
}

function OfSet({ opened }: { readonly opened: OpenedSet }) {
  const text = words.value.set.certificate;
  const { kept, judged } = opened;
  // A member chosen in a set before is none of this one.
  const chosen = judged.members.find((one) => one.setMemberId === certifiedMember.value) ?? null;
  return (
    <CertificateSheet
      about={{ setId: kept.setId, ...(chosen === null ? {} : { setMemberId: chosen.setMemberId }) }}
      title={`${text.title}: ${kept.set.form.name}`}
      suggestedName={[kept.set.form.name, chosen?.specimenName].filter(Boolean).join(' ')}
      basis={opened}
      note={judged.outcome === 'undecided' && chosen === null ? text.undecided : null}
      onIssued={() => void refreshSet()}
    >
      <SelectField
        id="certified"
        label={text.what}
        value={chosen === null ? '' : String(chosen.setMemberId)}
        options={[
          { value: '', label: text.whole },
          ...judged.members.map((one) => ({ value: String(one.setMemberId), label: one.specimenName })),
        ]}
        onChoose={(value) => (certifiedMember.value = value === '' ? null : Number(value))}
      />
    </CertificateSheet>
  );
}
