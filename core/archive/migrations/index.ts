/** Every migration in order; the archive's `user_version` is how many of them it has had. Append only. */
import { firstForm } from './0001-first-form.ts';
import { offsetOfStart } from './0002-offset-of-start.ts';
import { sets } from './0003-sets.ts';
import { evaluations } from './0004-evaluations.ts';
import { voidPulls } from './0005-void-pulls.ts';
import { peopleAndSignatures } from './0007-people-and-signatures.ts';
import { photos } from './0006-photos.ts';
import { typedPulls } from './0008-typed-pulls.ts';
import { instruments } from './0009-instruments.ts';
import { certificatesOfPulls } from './0010-certificates-of-pulls.ts';
import { originsAndSearches } from './0011-origins-and-searches.ts';
import { twoInstruments } from './0012-two-instruments.ts';
import { indexesOfCertificates } from './0013-indexes-of-certificates.ts';
import { statedDays } from './0014-stated-days.ts';
import { languageOfCertificates } from './0015-language-of-certificates.ts';

export const MIGRATIONS: readonly string[] = [
  firstForm,
  offsetOfStart,
  sets,
  evaluations,
  voidPulls,
  photos,
  peopleAndSignatures,
  typedPulls,
  instruments,
  certificatesOfPulls,
  originsAndSearches,
  twoInstruments,
  indexesOfCertificates,
  statedDays,
  languageOfCertificates,
];
export const SCHEMA_VERSION = MIGRATIONS.length;
