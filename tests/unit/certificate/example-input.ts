/** A certificate's input, invented: one specimen with a curve in closed form, a doubt, an override and hostile names. */
import { builtInPacks } from '../../../core/acceptance/packs.ts';
import { decidedVerdict } from '../../../core/acceptance/override.ts';
import type { CertificateInput } from '../../../core/certificate/certificate-input.ts';
import { curveContent } from '../../../core/certificate/curve-content.ts';
import type { Curve } from '../../../core/curve/curve.ts';
import { evaluate } from '../../../core/results/evaluate.ts';
import { judgeMember } from '../../../core/sets/judge-member.ts';
import { readSet } from '../../../core/sets/set-faults.ts';
import { readSpecimen } from '../../../core/specimen/read-specimen.ts';

/** 100 mm², 50 mm: straight to 400 MPa with 200 GPa, 600 MPa at 5 % strain, break at 8 %. */
export const LENGTH = 801;
const strainAt = (i: number): number => i / 10_000;
const stressAt = (strain: number): number =>
  strain <= 0.002 ? 200_000 * strain : 400 + 200 * (1 - ((strain - 0.05) / 0.048) ** 2);
export const exampleCurve: Curve = {
  length: LENGTH,
  timeS: Float64Array.from({ length: LENGTH }, (_, i) => i / 10),
  forceN: Float64Array.from({ length: LENGTH }, (_, i) => stressAt(strainAt(i)) * 100),
  extensionMm: Float64Array.from({ length: LENGTH }, (_, i) => strainAt(i) * 50),
};

export function exampleInput(changes: Partial<CertificateInput> = {}): CertificateInput {
  const read = readSet(
    {
      name: '=PQR 41 <b>',
      purpose: 'procedure-qualification',
      rulePackId: 'iso-15614-1',
      baseMetals: [{ designation: 'S355' }],
      specimenType: 'transverse-flat',
      welder: '\u202eshop 3',
    },
    builtInPacks(),
  );
  const specimen = readSpecimen({
    id: 'T-1',
    geometry: { kind: 'flat', width: '20.00 mm', thickness: ['5.00 mm', '5.01 mm'] },
    gaugeLength: '50 mm',
  });
  if (!read.ok || !specimen.ok) throw new Error('the example is wrong');
  const evaluation = evaluate(exampleCurve, specimen.specimen);
  const outcome = judgeMember({
    set: read.set,
    facts: { fracture: { broke: 'weld-metal' }, doubts: [{ code: 'calibration-overdue' }] },
    evaluation,
    measuredIn: 'SI',
    packs: builtInPacks(),
  });
  if (!outcome.ok) throw new Error('refused');
  const verdict = decidedVerdict(outcome.verdict, [
    {
      to: 'accept',
      person: 'Q. Inspector',
      reason: 'verified the day after',
      at: '2031-04-02T09:00:00+02:00',
    },
  ]);
  return {
    kind: 'set',
    number: 'C-2031-007',
    laboratory: { name: 'Test house', lines: ['Harbour road 4'] },
    issued: '2031-04-02T10:00:00+02:00',
    programVersion: '0.1.0',
    set: read.set,
    setVerdict: null,
    specimens: [
      {
        member: { specimenId: 'T-1' },
        specimen: specimen.specimen,
        evaluation,
        fracture: { broke: 'weld-metal' },
        photos: [{ photoId: 1, sha256: 'ab'.repeat(32), mediaType: 'image/jpeg', caption: 'both halves' }],
        curve: curveContent(exampleCurve, evaluation),
        equipment: {
          forceSystem: 'bench readout',
          instruments: {
            used: [
              {
                kind: 'frame',
                instrumentId: 2,
                name: 'frame 2',
                serialNumber: '0815',
                class: 'class 1 (ISO 7500-1)',
                calibrationId: 7,
                certificateNumber: 'K-2030-17',
                calibratedOn: '2030-03-01',
                dueOn: '2031-03-01',
                verifiedRange: null,
                state: 'overdue',
              },
            ],
            factors: 'set',
            concerns: [{ code: 'calibration-overdue', instrumentId: 2 }],
            confirmed: 'person',
          },
        },
        record: {
          pullId: 12,
          started: '2031-04-01T15:00:00+02:00',
          operator: 'operator 1',
          readingCount: LENGTH,
          gapWords: ['nothing received for 1.2 s'],
          rawSha256: 'cd'.repeat(32),
          recordedBy: '0.1.0',
          evaluatedBy: '0.1.0',
          typedIn: false,
        },
        verdict,
      },
    ],
    deviations: [],
    signatures: [{ printedName: 'Q. Inspector', at: '2031-04-02T10:00:00+02:00', meaning: 'approved by' }],
    ...changes,
  };
}
