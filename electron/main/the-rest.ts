/** What of this process is read only once its window is being shown: a bundle of its own. */
export { printAndEnd } from '../print/print-and-end.ts';
export { runProgram } from './program.ts';
