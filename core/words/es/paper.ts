/** What is written for paper alone, with its Spanish: by the type of its keys nothing is put on paper that has none. */
import { ES_PAPER_CERTIFICATE } from './paper-certificate.ts';
import { ES_PAPER_RESULTS } from './paper-results.ts';
import { ES_PAPER_VERIFICATION } from './paper-verification.ts';

export const ES_PAPER = { ...ES_PAPER_RESULTS, ...ES_PAPER_VERIFICATION, ...ES_PAPER_CERTIFICATE } as const;
