/** Names of forms in which something may be typed that is not kept, in English: as they stand in the question before closing. */
export const enNotKept = {
  laboratory: 'laboratory on certificates',
  evaluation: 'another evaluation',
  afterFracture: 'sizes after the break',
  fracture: 'note on the fracture',
  setReason: 'reason for the correction of a set',
  calibration: 'calibration',
  verifiedCalibration: 'calibration from a worksheet',
  forces: 'worksheet of forces',
  extensions: 'worksheet of extensions',
  instrument: 'instrument',
  reason: 'reason for an act',
  person: 'person',
  typedPull: 'typed peak',
};
