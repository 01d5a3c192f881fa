/** The lines of a scale are shared with exports and the certificate. */
export * from '../../core/drawing/axis-ticks.ts';
