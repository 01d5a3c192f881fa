/** Texts about a pull that is typed from the frame's display, in English. */
export const enTyped = {
  title: 'A frame without a port: type its peak',
  means:
    'Type what its display shows after the pull. There is no curve; the pull is marked as typed wherever it is shown.',
  load: 'Peak load shown',
  loadHint: 'with its unit',
  yieldLoad: 'Yield load',
  yieldHint: 'where the display stood still, if it was seen',
  elongation: 'Elongation after fracture',
  elongationHint: 'if not worked out from the halves',
  keep: 'Keep as typed',
  sure: 'It is right, keep it',
  needsSpecimen: 'Measure the specimen and keep it first.',
  recording: 'A record is open; close it first.',
  kept: (name: string) => `The pull of ${name} is kept as typed from the display.`,
  source: 'typed from the frame’s display; nothing was recorded',
  noCurve: 'Typed from the frame’s display: there is no curve.',
  mark: 'typed',
  values: (load: string) => `Peak load typed as ${load}`,
};
