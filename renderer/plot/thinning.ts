/** The thinning of pictures is shared with exports and the certificate. */
export * from '../../core/curve/thinning.ts';
