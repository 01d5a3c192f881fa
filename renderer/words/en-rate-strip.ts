/** Texts of the strip of the rate at the pull, in English. */
export const enRateStrip = {
  title: 'Speed of pulling',
  choose: 'Speed to keep, by',
  none: 'no method; no window is shown',
  noWindow: (stage: string) => `No window ${stage}`,
  waits: 'Waiting for the pull',
  isOver: 'The pull is over',
  cantTell: 'can’t be told: no such channel or size',
  upTo: (rate: string) => `up to ${rate}`,
  or: ' or ',
  allowed: (windows: string) => `allowed ${windows}`,
  places: { falling: 'falling', below: 'too slow', inside: 'as allowed', above: 'too fast' },
  quantities: {
    'stress-rate': 'Stress rate',
    'strain-rate': 'Strain rate',
    'crosshead-rate': 'Crosshead over parallel length',
  },
  stages: { elastic: 'in the elastic part', yield: 'through yield', 'to-maximum': 'to the maximum' },
  methods: {
    'astm-e8-a': 'ASTM E8/E8M method A, stress rate',
    'astm-e8-b': 'ASTM E8/E8M method B, strain rate',
    'astm-e8-c': 'ASTM E8/E8M method C, crosshead',
    'iso-6892-1-a': 'ISO 6892-1 method A, strain rate',
    'iso-6892-1-b-stiff': 'ISO 6892-1 method B, 150 GPa and over (steel)',
    'iso-6892-1-b': 'ISO 6892-1 method B, under 150 GPa (aluminium)',
  },
};
