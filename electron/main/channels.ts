/** Names of the messages between main and the preload script. */
export const CHANNELS = {
  request: 'gaugemark:request',
  event: 'gaugemark:event',
  /** The page's thread has taken an event, by number. */
  taken: 'gaugemark:taken',
  ping: 'gaugemark:ping',
  pong: 'gaugemark:pong',
} as const;
