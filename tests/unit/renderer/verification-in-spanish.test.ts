/** What a verification says on a Spanish page: decimal commas in every line of its working, and no English between them. */
import { afterEach, beforeEach, expect, it } from 'vitest';
import {
  calibrationOfExtension,
  calibrationOfVerification,
} from '../../../core/instruments/calibration-of-verification.ts';
import { readExtensionWorksheet } from '../../../core/verification/extension-worksheet.ts';
import { stepFindings } from '../../../core/verification/step-figures.ts';
import { extensionWorkings, verifyExtension } from '../../../core/verification/verify-extension.ts';
import { verifyForce } from '../../../core/verification/verify-force.ts';
import { readWorksheet } from '../../../core/verification/worksheet.ts';
import { changeView } from '../../../renderer/store/view-settings.ts';
import { told } from '../../../renderer/words/told.ts';

beforeEach(() => changeView({ language: 'es' }));
afterEach(() => changeView({ language: 'en' }));

const ENGLISH = /\b(?:and|of|from|memory|class|within|strain|lies?|further|asked|runs?|force)\b/i;

it('of forces: each working, remark and the class', () => {
  const outcome = readWorksheet({
    unit: 'kN',
    resolution: '0.01',
    zeros: ['0.01', '-0.01', '0'],
    steps: ['5.05', '10.25', '20.5', '41.25', '101.5'].map((applied) => ({
      applied,
      indicated: [applied, `${applied}1`, applied],
      descending: { indicated: `${applied}2` },
    })),
  });
  if (!outcome.ok) throw new Error(JSON.stringify(outcome.faults));
  const found = verifyForce(outcome.read);
  const lines = [...found.steps.flatMap(stepFindings), ...(found.zero === null ? [] : [found.zero])].flatMap(
    ({ working }) => [working.substituted],
  );
  expect(lines.length).toBeGreaterThan(20);
  for (const line of lines) expect(told(line), line).not.toMatch(/\d\.\d/);
  expect(found.remarks.length).toBeGreaterThan(0);
  for (const remark of found.remarks) {
    expect(told(remark)).not.toMatch(ENGLISH);
    // Numbers of clauses keep their points.
    expect(told(remark).replaceAll('10.2', '')).not.toMatch(/\d\.\d/);
  }
  for (const finding of found.steps.flatMap(stepFindings))
    expect(told(finding.working.source)).not.toMatch(ENGLISH);
  const said = calibrationOfVerification(outcome.worksheet, found).class ?? '';
  expect(said).toContain('0.5');
  expect(told(said)).toBe('clase 0,5 (ISO 7500-1), dentro de ±1 % (ASTM E4)');
});

it('of extensions: each working and the classes', () => {
  const outcome = readExtensionWorksheet({
    unit: 'mm',
    resolution: '0.0005',
    gaugeLength: '50.25',
    measuredGaugeLength: '50.3',
    steps: ['0.105', '0.205', '1.05', '2.05', '5.5'].map((applied) => ({
      applied,
      indicated: [applied, `${applied}1`],
    })),
  });
  if (!outcome.ok) throw new Error(JSON.stringify(outcome.faults));
  const found = verifyExtension(outcome.read);
  for (const { working } of extensionWorkings(found)) {
    expect(told(working.substituted), working.substituted).not.toMatch(/\d\.\d/);
    expect(told(working.substituted)).not.toMatch(ENGLISH);
  }
  const said = calibrationOfExtension(outcome.worksheet, found).class ?? '';
  expect(told(said)).toMatch(/^clase \S+ \(ISO 9513\), clase \S+ \(ASTM E83\)$/);
  expect(told(said)).not.toMatch(/\d\.\d/);
});
