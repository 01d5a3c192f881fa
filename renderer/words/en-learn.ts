/** Texts about learning a readout's lines, its control lines and a second instrument, in English. */
export const enLearn = {
  learn: 'Learn its lines…',
  learnHint:
    'Where no profile fits: this listens at one line setting after the other and proposes one. Nothing is sent.',
  fromBytes: 'Learn from recorded bytes…',
  needsPort:
    'Choose a serial port or a device server (tcp:HOST:PORT) that is talking. Nothing is sent, so what only answers when asked, as Modbus does, can’t be learned; the simulated frame has its profiles already.',
  inPull: 'A pull is being recorded; lines are learned before or after it.',
  listening: (port: string) => `Listening to ${port}`,
  readingFile: (file: string) => `Learning from ${file}`,
  settings: (baud: string, bits: string, parity: string) =>
    `${baud} baud, ${bits} data bits, parity ${parity}`,
  tried: (count: string, bytes: string) => `${count} settings tried before, ${bytes} bytes heard at most`,
  stop: 'Stop',
  found: (from: string) => `Proposed from ${from}`,
  confidence: (percent: string, readings: string, rejected: string) =>
    `${percent} % sure: ${readings} lines read, ${rejected} not.`,
  press:
    'Press on the frame by hand, lightly: which number moves? Name it; what is named rightly already can stand.',
  moved: 'moved by',
  field: 'Number',
  quantity: 'is',
  unit: 'in',
  unknown: 'not known',
  quantities: {
    force: 'load',
    extension: 'extension',
    travel: 'travel of the crosshead',
    stress: 'stress',
    strain: 'strain',
    time: 'time',
    other: 'something else',
  },
  unitMissing: (field: string) => `Say the unit of “${field}”; guessing it could be wrong fourfold.`,
  name: 'Name of the profile',
  nameMissing: 'Give the profile a name; it is offered under it.',
  keep: 'Keep this profile',
  drop: 'Drop it',
  dropTyped: 'Drop it: nothing typed is kept',
  kept: (name: string) => `The profile “${name}” is kept in the archive and chosen.`,
  proposedLines: 'Lines as they came, and as the proposal reads them',
  factors: {
    title: 'Scale and offset of its numbers…',
    means:
      'A value is the number shown × scale + offset. Each line stays in the record raw, as it came; scale and offset are kept in the profile, and the profile with each pull. A pull that was made with others can be read by these under “Evaluate again”, and stays as it was recorded.',
    scale: 'Scale, without a unit',
    offset: (unit: string) => `Offset, ${unit}`,
    newName: 'What comes with the program stays as it is: these are kept under a name of their own.',
    sameName: 'Under the same name the profile is offered with these from now on; pulls keep theirs.',
    nameTaken: 'A profile of this name comes with the program; give this one another name.',
    faults: {
      'no-number': 'A plain number is needed, such as 1.002 or -0.25.',
      zero: 'A scale of zero would make every reading the same.',
    },
    keep: 'Keep the profile with these',
    set: 'Stop listening and set them',
    setMeans: 'What was recorded stays as it is; listen again once they are kept.',
    stopsFirst: 'stops listening first',
    learntFirst: 'The learnt profile is to be kept or dropped first, at the station Readout.',
    simulated: 'The simulated frame has no scale and offset to set.',
    portFirst:
      'Scale and offset belong to a real readout: choose its port first, at the station Readout. They stand below the profile then.',
  },
  controlLines: 'Control lines',
  controlLinesHint:
    'Some readouts begin anew when DTR moves. Where the port has none, that is noted and changes nothing.',
  leave: 'left alone',
  on: 'on',
  off: 'off',
  second: 'A second instrument on a port of its own (extension beside the load)',
  secondProfileMissing:
    'Choose the profile of the second instrument: this archive does not have the one that was chosen.',
  secondPort: 'Port of the second instrument',
  secondProfile: 'Readout profile of the second instrument',
  secondPortMissing: 'Choose the port of the second instrument, or leave it out.',
  secondIs: (where: string, profile: string) => `Second instrument: ${where} · ${profile}`,
  secondLost: 'not heard',
  skew: (joined: string, total: string, mean: string, longest: string) =>
    `${joined} of ${total} readings carry a value of the second instrument; it stood behind the load by ${mean} ms on average, ${longest} ms at most.`,
};
