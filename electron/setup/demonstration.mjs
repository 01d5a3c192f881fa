/** A whole pull in the real window, made by its own buttons: what a machine without a screen shows of the program. */

/**
 * @param {object} options
 * @param {string} options.electron
 * @param {NodeJS.ProcessEnv} options.environment
 * @param {(line: string) => void} options.say
 * @param {readonly string[]} options.args
 * @returns {Promise<number>}
 */
export async function demonstrate({ say }) {
  say('The demonstration is not there yet.');
  return Promise.resolve(1);
}
