/** Minutes that the clock of this computer's place is ahead of UTC at that moment. */
export function utcOffsetMinutes(wallMs: number): number {
  return 0 - new Date(wallMs).getTimezoneOffset();
}
