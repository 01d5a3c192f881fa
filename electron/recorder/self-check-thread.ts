/** The self-check in a thread of its own: some seconds of arithmetic must hold up neither port nor commits. */
import { parentPort } from 'node:worker_threads';
import { allCases } from '../../core/self-check/all-cases.ts';
import { runSelfCheck } from '../../core/self-check/self-check-case.ts';

parentPort?.postMessage(runSelfCheck(allCases));
