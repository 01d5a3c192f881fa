/** Ways to the certificate of one pull, and of a set that it is in. */
import { Button } from '../../design/button.tsx';
import { goTo } from '../../store/place.ts';
import { words } from '../../words/words.ts';
import { openSet } from '../set/open-set.ts';
import { certifiedMember, certifiedPull } from './certificate-choice.ts';

export function CertificateOfPull({ id, pullId }: { readonly id: string; readonly pullId: number }) {
  return (
    <Button
      kind="compact"
      id={id}
      onPress={() => {
        certifiedPull.value = pullId;
        goTo('certificate');
      }}
    >
      {words.value.set.certificate.ofThisPull}
    </Button>
  );
}

export function CertificateOfSet({ setId, name }: { readonly setId: number; readonly name: string }) {
  return (
    <Button
      kind="compact"
      onPress={() => {
        openSet(setId);
        certifiedMember.value = null;
        certifiedPull.value = null;
        goTo('certificate');
      }}
    >
      {words.value.set.certificate.ofSet(name)}
    </Button>
  );
}
