/** The result of the demonstration pull in words: what was pulled, what came out and how, what was detected. */

/**
 * @param {import('playwright').Page} page
 * @returns {Promise<string[]>}
 */
export async function resultLines(page) {
  const { pull, evaluation } = await page.evaluate(async () => {
    const list = await gaugemark.request('pull.list', { limit: 1 });
    const pullId = list.ok ? list.value.items[0]?.pullId : undefined;
    if (pullId === undefined) throw new Error('No pull is kept.');
    const [kept, evaluated] = await Promise.all([
      gaugemark.request('pull.get', { pullId }),
      gaugemark.request('pull.evaluate', { pullId }),
    ]);
    if (!kept.ok) throw new Error(kept.fault.sentence);
    if (!evaluated.ok) throw new Error(evaluated.fault.sentence);
    return {
      pull: kept.value,
      evaluation: {
        results: evaluated.value.results,
        withheld: evaluated.value.withheld,
        remarks: evaluated.value.remarks,
      },
    };
  });
  const lines = [
    ...(pull.readings === 'simulated'
      ? ['SIMULATED    no specimen was pulled: readings of the built-in frame, evidence of no property']
      : []),
    `Specimen     ${pull.specimenName}, ${pull.readingCount} readings in ${(pull.durationUs / 1e6).toFixed(1)} s`,
    `Begun        ${new Date(pull.startedWallMs).toISOString()} by the wall clock; seconds are of the recorder's own clock since then`,
    ...pull.marks.map(
      (mark) => `Mark         ${mark.kind} at ${(mark.elapsedUs / 1e6).toFixed(3)} s: ${mark.words}`,
    ),
    ...pull.gaps.map((gap) => `Gap          ${gap.words}`),
  ];
  for (const result of evaluation.results) {
    const [reported] = result.rounded;
    const unrounded = `${figure(result.value)} ${result.unit === '1' ? '' : result.unit}`.trim();
    lines.push(
      `${result.symbol.padEnd(12)} ${reported === undefined ? unrounded : `${reported.text} ${reported.unit}`}   ${result.name}`,
    );
    lines.push(`             ${result.working.formula}: ${result.working.substituted}`);
    for (const { text, unit, rule } of result.rounded)
      lines.push(
        `             ${text} ${unit} from ${unrounded}, ${rule.includes('shop') || rule.startsWith('area') ? '' : 'rounded by '}${rule}`,
      );
    for (const remark of result.remarks ?? []) lines.push(`             note: ${remark}`);
  }
  for (const { symbol, reason } of evaluation.withheld)
    lines.push(`${symbol.padEnd(12)} not given: ${reason}`);
  for (const remark of evaluation.remarks) lines.push(`About it     ${remark}`);
  return lines;
}

/** Six figures, as in a working: more than a calliper and a load cell give together. */
const FIGURES = 6;

/**
 * Plain digits without an exponent in the range that people measure in.
 * @param {number} value
 */
export function figure(value) {
  const rounded = Number(value.toPrecision(FIGURES));
  return Math.abs(rounded) < 1e-6 && rounded !== 0 ? rounded.toExponential() : String(rounded);
}
