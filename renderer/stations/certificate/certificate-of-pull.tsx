/** Leads to the certificate of one pull. */
import { Button } from '../../design/button.tsx';
import { goTo } from '../../store/place.ts';
import { words } from '../../words/words.ts';
import { certifiedPull } from './certificate-choice.ts';

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
