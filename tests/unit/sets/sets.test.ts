import { describe, expect, it } from 'vitest';
import { builtInPacks, packsWith } from '../../../core/acceptance/packs.ts';
import { type RulePack, readRulePack } from '../../../core/acceptance/read-rule-pack.ts';
import { type DecidedVerdict, decidedVerdict } from '../../../core/acceptance/override.ts';
import { judgeMember } from '../../../core/sets/judge-member.ts';
import {
  memberFaults,
  otherPacksOfSet,
  packChangedSince,
  packOfSet,
  readSet,
} from '../../../core/sets/set-faults.ts';
import { type FrozenSet, frozenSet } from '../../../core/sets/set-form.ts';
import { type MemberProgress, setOverview } from '../../../core/sets/set-overview.ts';
import { OWN_PACK } from '../acceptance/judging.ts';

const FORM = {
  name: 'PQR 41, 3/4 in plate',
  purpose: 'procedure-qualification',
  rulePackId: 'asme-ix',
  baseMetals: [{ designation: 'SA-516-70', heat: 'H-2207' }],
  specimenType: 'transverse-flat',
  thickness: '3/4 in',
};

function setOf(changes: object = {}): FrozenSet {
  const read = readSet({ ...FORM, ...changes }, builtInPacks());
  if (!read.ok) throw new Error(read.faults.map((fault) => fault.sentence).join(' '));
  return read.set;
}

function faultsOf(changes: object): string {
  const read = readSet({ ...FORM, ...changes }, builtInPacks());
  return read.ok ? '' : read.faults.map((fault) => `[${fault.field}] ${fault.sentence}`).join('\n');
}

function verdictOf(
  set: FrozenSet,
  strength: string,
  broke: 'weld-metal' | 'base-metal' | 'grips',
): DecidedVerdict {
  const outcome = judgeMember({
    set,
    facts: { fracture: { broke }, doubts: [], typed: { strength } },
    evaluation: null,
    measuredIn: 'US',
    packs: [],
  });
  if (!outcome.ok) throw new Error('refused');
  return decidedVerdict(outcome.verdict);
}

const member = (specimenId: string, more: Partial<MemberProgress> = {}): MemberProgress => ({
  member: { specimenId },
  measured: false,
  pull: 'none',
  fractureNoted: false,
  verdict: null,
  ...more,
});

describe('a set', () => {
  it('keeps its whole rule pack, so that it judges the same after a round trip through the archive', () => {
    const again = frozenSet.parse(JSON.parse(JSON.stringify(setOf())));
    expect(packOfSet(again).baseMetals.map((metal) => metal.id)).toEqual(['A516-70']);
    expect(verdictOf(again, '66 500 psi', 'base-metal').verdict).toMatchObject({
      outcome: 'accept',
      clause: 'QW-153.1(d)',
    });
    expect(verdictOf(again, '66 499 psi', 'base-metal').outcome).toBe('reject');
  });

  it('gives each base metal its own stated minimum', () => {
    const set = setOf({
      baseMetals: [
        { designation: 'house steel', minimum: '62 ksi' },
        { designation: 'A36', minimum: '58 ksi' },
      ],
    });
    expect(verdictOf(set, '58 000 psi', 'weld-metal').verdict).toMatchObject({
      outcome: 'accept',
      limit: { value: 58_000 },
    });
  });

  it('of all-weld-metal specimens judges by the filler class', () => {
    const set = setOf({
      rulePackId: 'aws-a5.1',
      specimenType: 'all-weld-metal-round',
      baseMetals: [],
      filler: { classification: 'E7018' },
    });
    expect(verdictOf(set, '69 499 psi', 'weld-metal').outcome).toBe('reject');
  });

  it.each([
    ['an unknown pack', { rulePackId: 'our-rules' }, /\[rulePackId\].*no rule pack/],
    [
      'the wrong kind of specimen',
      { specimenType: 'all-weld-metal-round' },
      /\[specimenType\].*transverse specimens/,
    ],
    ['a thickness without a unit', { thickness: '19' }, /\[thickness\].*no unit/],
    [
      'an ambiguous base metal',
      { baseMetals: [{ designation: 'A500 Gr B' }] },
      /\[baseMetals\[0\]\.designation\].*A500-B-round or A500-B-shaped/,
    ],
    [
      'a negative minimum',
      { baseMetals: [{ designation: 'X', minimum: '-60 ksi' }] },
      /\[baseMetals\[0\]\.minimum\].*negative/,
    ],
    [
      'minima in two unit systems',
      {
        baseMetals: [
          { designation: 'X', minimum: '60 ksi' },
          { designation: 'Y', minimum: '485 MPa' },
        ],
      },
      /two unit systems/,
    ],
    ['an unknown purpose', { purpose: 'fun' }, /\[purpose\].*"class-exercise"/],
  ])('refuses %s', (_what, changes, expected) => {
    expect(faultsOf(changes)).toMatch(expected);
  });

  it('refuses members twice, strangers, rings and retests of retests', () => {
    const retest = (specimenId: string, of: string) => ({ specimenId, retest: { of, reason: 'failed' } });
    expect(memberFaults([{ specimenId: 'T-1' }, { specimenId: 'T-2' }, retest('T-3', 'T-1')])).toEqual([]);
    expect(memberFaults([{ specimenId: 'T-1' }, { specimenId: 'T-1' }])[0]?.sentence).toMatch(
      /in the set already/,
    );
    expect(memberFaults([retest('T-1', 'T-1')])[0]?.sentence).toMatch(/of itself/);
    expect(memberFaults([retest('T-1', 'T-9')])[0]?.sentence).toMatch(/not in the set/);
    expect(
      memberFaults([{ specimenId: 'T-1' }, retest('T-2', 'T-1'), retest('T-3', 'T-2')])[0]?.sentence,
    ).toMatch(/a retest itself/);
  });
});

describe('a set at a glance', () => {
  const set = setOf();

  it('tells what is measured, pulled, judged and missing, and what comes next', () => {
    const overview = setOverview(set, [
      member('T-1', {
        measured: true,
        pull: 'recorded',
        fractureNoted: true,
        verdict: verdictOf(set, '75 ksi', 'weld-metal'),
      }),
    ]);
    expect(overview.counts).toMatchObject({
      required: 2,
      specimens: 1,
      measured: 1,
      pulled: 1,
      judged: 1,
      accepted: 1,
      missing: 1,
    });
    expect(overview.next).toBe('add 1 more specimen');
    expect(overview.verdict.outcome).toBe('undecided');
  });

  it.each([
    [{}, 'to-measure'],
    [{ measured: true }, 'to-pull'],
    [{ measured: true, pull: 'open' }, 'pulling'],
    [{ measured: true, pull: 'recorded' }, 'to-look-at'],
    [{ measured: true, pull: 'interrupted' }, 'to-look-at'],
    [{ measured: true, pull: 'typed', fractureNoted: true }, 'to-judge'],
  ] as const)('%j is %s', (more, stage) => {
    const [line] = setOverview(set, [member('T-1', more)]).lines;
    expect(line?.stage).toBe(stage);
  });

  it('shows questionable tests, overrides and voids', () => {
    const grips = verdictOf(set, '75 ksi', 'grips').verdict;
    const overview = setOverview(set, [
      member('T-1', {
        verdict: decidedVerdict(grips, [
          { to: 'accept', person: 'Q. Inspector', reason: 'above the minimum anyhow' },
        ]),
      }),
      { ...member('T-2'), member: { specimenId: 'T-2', voided: { by: 'operator', reason: 'bent' } } },
    ]);
    expect(overview.lines[0]).toMatchObject({
      stage: 'judged',
      outcome: 'accept',
      questionable: true,
      overridden: true,
    });
    expect(overview.lines[1]).toMatchObject({ stage: 'void', next: null });
    expect(overview.counts.specimens).toBe(1);
  });

  it('is done when enough specimens are accepted', () => {
    const good = {
      measured: true,
      pull: 'recorded',
      fractureNoted: true,
      verdict: verdictOf(set, '75 ksi', 'weld-metal'),
    } as const;
    expect(setOverview(set, [member('T-1', good), member('T-2', good)])).toMatchObject({
      next: null,
      verdict: { outcome: 'accept' },
    });
  });
});

describe('a set by a laboratory’s own rules', () => {
  const own = (changes: object, file: string): RulePack => {
    const read = readRulePack({ ...OWN_PACK, ...changes });
    if (!read.ok) throw new Error(read.faults[0]?.sentence);
    return { ...read.pack, origin: { file, sha256: 'ab'.repeat(32) } };
  };
  const stricter = own({ id: 'stricter', name: 'Stricter' }, 'stricter.json');
  const ours = own({ id: 'ours', name: 'Ours', otherPacks: ['stricter', 'shop-practice'] }, 'ours.json');
  const frozen = (packs: readonly RulePack[]) => {
    const read = readSet({ ...FORM, rulePackId: 'ours', baseMetals: [{ designation: 'HB-9' }] }, packs);
    if (!read.ok) throw new Error(read.faults[0]?.sentence);
    return read.set;
  };

  it('keeps with its pack those of its own that it asks for another answer, and none of the program’s', () => {
    const set = frozen(packsWith([ours, stricter]));
    expect(set.origin?.file).toBe('ours.json');
    expect(set.otherPacks?.map(({ id }) => id)).toEqual(['stricter']);
    // Years later, with no folder at hand.
    expect(otherPacksOfSet(set).map(({ file }) => file.id)).toEqual([
      ...builtInPacks().map(({ file }) => file.id),
      'stricter',
    ]);
  });

  it('says when the rules read differently today or are gone, and nothing where they are the same', () => {
    const set = frozen(packsWith([ours, stricter]));
    expect(packChangedSince(set, packsWith([ours]))).toBeNull();
    expect(
      packChangedSince(set, packsWith([own({ id: 'ours', name: 'Ours', edition: 'issue 4' }, 'new.json')])),
    ).toMatch(
      /Ours \(ours\.json\) read differently today in new\.json; the set is judged by the rules as they were kept/,
    );
    expect(packChangedSince(set, builtInPacks())).toMatch(/not in the rules folder any more/);
  });
});
