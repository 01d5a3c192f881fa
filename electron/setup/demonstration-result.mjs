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
      evaluation: { results: evaluated.value.results, withheld: evaluated.value.withheld },
    };
  });
  const lines = [
    `Specimen     ${pull.specimenName}, ${pull.readingCount} readings in ${(pull.durationUs / 1e6).toFixed(1)} s`,
    ...pull.marks.map(
      (mark) => `Mark         ${mark.kind} at ${(mark.elapsedUs / 1e6).toFixed(3)} s: ${mark.words}`,
    ),
    ...pull.gaps.map((gap) => `Gap          ${gap.words}`),
  ];
  for (const result of evaluation.results) {
    const rounded = result.rounded.map(({ text, unit }) => `${text} ${unit}`).join(' = ');
    lines.push(`${result.symbol.padEnd(12)} ${rounded || `${result.value} ${result.unit}`}   ${result.name}`);
    lines.push(`             ${result.working.formula}: ${result.working.substituted}`);
    for (const { text, unit, rule } of result.rounded)
      lines.push(`             unrounded ${result.value} ${result.unit}; ${text} ${unit} by ${rule}`);
  }
  for (const { symbol, reason } of evaluation.withheld)
    lines.push(`${symbol.padEnd(12)} not given: ${reason}`);
  return lines;
}
