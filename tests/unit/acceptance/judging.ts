/** Judging by text, as window and command line do, for the tests of this folder. */
import { type JudgeRequest, judgeAsked } from '../../../core/acceptance/judge-request.ts';
import { builtInPacks, findPack } from '../../../core/acceptance/packs.ts';
import { type RulePack, readRulePack } from '../../../core/acceptance/read-rule-pack.ts';
import type { Verdict } from '../../../core/acceptance/verdict.ts';

export function packCalled(text: string): RulePack {
  const found = findPack(text);
  if (found.kind !== 'found') throw new Error(`no pack "${text}": ${found.kind}`);
  return found.item;
}

export function packOf(file: unknown): RulePack {
  const read = readRulePack(file);
  if (!read.ok) throw new Error(read.faults.map((fault) => fault.sentence).join(' '));
  return read.pack;
}

export function judged(pack: string | RulePack, request: JudgeRequest): Verdict {
  const outcome = judgeAsked(typeof pack === 'string' ? packCalled(pack) : pack, request, builtInPacks());
  if (!outcome.ok) throw new Error(outcome.faults.map((fault) => fault.sentence).join(' '));
  return outcome.verdict;
}

/** The faults that a request is refused with. */
export function refused(pack: string, request: unknown): readonly { field: string; sentence: string }[] {
  const outcome = judgeAsked(packCalled(pack), request, []);
  if (outcome.ok) throw new Error(`not refused: ${outcome.verdict.sentence}`);
  return outcome.faults;
}

/** A small pack of a laboratory's own. */
export const OWN_PACK = {
  format: 'gaugemark-rules',
  version: 1,
  id: 'our-laboratory',
  name: 'Our laboratory, lap joints',
  edition: 'issue 3',
  kind: 'practice',
  test: 'transverse',
  summary: 'Ductile breaks at 90 % of the minimum, others at the minimum.',
  status: 'own',
  source: 'work instruction 12',
  clauses: [
    { id: '4.1', says: 'Ductile breaks.', status: 'own', source: 'work instruction 12' },
    { id: '4.2', says: 'All others.', status: 'own', source: 'work instruction 12' },
    { id: '4.3', says: 'Brittle breaks fail.', status: 'own', source: 'work instruction 12' },
  ],
  severalBaseMetals: { governs: 'highest', clause: '4.2' },
  rules: [
    {
      id: 'brittle',
      clause: '4.3',
      says: 'A brittle break fails.',
      outcome: 'reject',
      when: { appearance: ['brittle'] },
    },
    {
      id: 'ductile',
      clause: '4.1',
      says: 'At least 90 % of the minimum where the break is ductile.',
      when: { appearance: ['ductile', 'cup-and-cone'] },
      require: [
        {
          quantity: 'tensile-strength',
          comparison: 'at-least',
          limitOf: 'base-metal-minimum',
          factor: '0.9',
        },
        { quantity: 'elongation', comparison: 'more-than', limit: '10 %' },
      ],
    },
    {
      id: 'others',
      clause: '4.2',
      says: 'At least the minimum.',
      require: [{ quantity: 'tensile-strength', comparison: 'at-least', limitOf: 'base-metal-minimum' }],
    },
  ],
  baseMetals: [{ id: 'HB-9', name: 'House steel 9', tensile: { si: { min: '500 MPa' } } }],
} as const;
