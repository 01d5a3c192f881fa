/** Names of the messages between main and the preload script. */
export const CHANNELS = {
  request: 'gaugemark:request',
  event: 'gaugemark:event',
  /** The page's first picture is on the screen. */
  shown: 'gaugemark:shown',
  /** The page's thread has taken an event, by number. */
  taken: 'gaugemark:taken',
  /** The page has put its first listener to events of a name. */
  listens: 'gaugemark:listens',
  ping: 'gaugemark:ping',
  pong: 'gaugemark:pong',
  /** From the sheet of the camera. */
  camera: 'gaugemark:camera',
} as const;
