/** The methods of testing speed that somebody can pull by: each the rules of one standard that go together. */
import { SPEED_RULES, type SpeedRule } from './speed-windows.ts';

export const SPEED_METHOD_IDS = [
  'astm-e8-a',
  'astm-e8-b',
  'astm-e8-c',
  'iso-6892-1-a',
  'iso-6892-1-b-stiff',
  'iso-6892-1-b',
] as const;
export type SpeedMethodId = (typeof SPEED_METHOD_IDS)[number];

const of = (standard: SpeedRule['standard'], ...methods: readonly string[]): readonly SpeedRule[] =>
  SPEED_RULES.filter((rule) => rule.standard === standard && methods.includes(rule.method));

const ASTM_LATE = 'after yield, for tensile strength';
const ISO_B_LATE = ['method B, through yield', 'method B, to maximum force'] as const;

/** At most one rule for each stage of the pull. Of ISO 6892-1 method B there are two, by the modulus of the metal. */
export const SPEED_METHODS: Readonly<Record<SpeedMethodId, readonly SpeedRule[]>> = {
  'astm-e8-a': of('ASTM E8/E8M', 'method A, stress rate', ASTM_LATE),
  'astm-e8-b': of('ASTM E8/E8M', 'method B, strain rate', ASTM_LATE),
  'astm-e8-c': of('ASTM E8/E8M', 'method C, crosshead over reduced section', ASTM_LATE),
  'iso-6892-1-a': of('ISO 6892-1', 'method A, through yield', 'method A, to maximum force'),
  'iso-6892-1-b-stiff': of(
    'ISO 6892-1',
    'method B, elastic part, modulus of 150 GPa and over',
    ...ISO_B_LATE,
  ),
  'iso-6892-1-b': of('ISO 6892-1', 'method B, elastic part, modulus under 150 GPa', ...ISO_B_LATE),
};
