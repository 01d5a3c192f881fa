/** The displays in memory that `npm test` has started for windows, as many as may be open at a time; none: all share one screen. */
export const displaysIn = (env: NodeJS.ProcessEnv): string[] =>
  (env['GAUGEMARK_DISPLAYS'] ?? '').split(' ').filter((display) => display !== '');
