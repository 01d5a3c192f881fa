/** What a set says about each of its specimens, as a request for a verdict. */
import type { Doubt } from '../acceptance/doubts.ts';
import type { FractureNote } from '../acceptance/fracture.ts';
import type { JudgeRequest } from '../acceptance/judge-request.ts';
import type { SetForm } from './set-form.ts';

/** Materials, minima, unit system and decision rule of the set; the same for every specimen. */
export function materialsRequest(form: SetForm): JudgeRequest {
  const { filler } = form;
  const allWeldMetal = form.specimenType === 'all-weld-metal-round';
  return {
    baseMetals: allWeldMetal
      ? []
      : form.baseMetals.map(({ designation, minimum }) => ({
          name: designation,
          ...(minimum === undefined ? {} : { minimum }),
        })),
    minima: allWeldMetal && filler?.minimum !== undefined ? [filler.minimum] : [],
    ...(filler === undefined ? {} : { filler: filler.classification }),
    ...(allWeldMetal && filler?.yieldMinimum !== undefined ? { yieldMinimum: filler.yieldMinimum } : {}),
    ...(allWeldMetal && filler?.elongationMinimum !== undefined
      ? { elongationMinimum: filler.elongationMinimum }
      : {}),
    ...(form.weldMetalMinimum === undefined ? {} : { weldMetalMinimum: form.weldMetalMinimum }),
    ...(form.system === undefined ? {} : { system: form.system }),
  };
}

export interface MemberFacts {
  readonly fracture: FractureNote;
  readonly doubts: readonly Doubt[];
  /** Of a typed-in pull: what was read from the frame's display. An evaluated pull hands its results in instead. */
  readonly typed?: { readonly strength?: string; readonly yield?: string; readonly elongation?: string };
  /** Expanded uncertainty of the strength as text, where it is known and no evaluation brings it. */
  readonly uncertainty?: string;
}

/** The request for one specimen of the set. */
export function memberRequest(form: SetForm, facts: MemberFacts): JudgeRequest {
  const { broke, soundness, appearance, atGaugeMark, brokenBaseMetal } = facts.fracture;
  return {
    ...materialsRequest(form),
    ...facts.typed,
    ...(broke === undefined ? {} : { broke }),
    ...(soundness === undefined ? {} : { fracture: soundness }),
    ...(appearance === undefined ? {} : { appearance }),
    ...(atGaugeMark === true ? { mark: 'gauge-mark' as const } : {}),
    ...(brokenBaseMetal === undefined ? {} : { brokenBaseMetal: String(brokenBaseMetal + 1) }),
    doubts: facts.doubts,
    ...(facts.uncertainty === undefined ? {} : { uncertainty: facts.uncertainty }),
    ...(form.decisionRule === undefined || form.decisionRule === 'simple-acceptance'
      ? {}
      : { decisionRule: form.decisionRule }),
    ...(form.guardFactor === undefined ? {} : { guardFactor: form.guardFactor }),
  };
}
