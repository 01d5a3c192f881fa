/** Options with several values behind one name, and values that begin with a minus sign. */

/**
 * Rewrites `--minimum "60 ksi" "70 ksi"` as `--minimum=60 ksi --minimum=70 ksi`, and joins the one value of every
 * other value option to its name, so that "-5 MPa" is read as a value (and refused in its own words). With
 * `oneEach` every option takes one value only, for verbs whose files stand anywhere among the options.
 */
export function gatherValues(
  args: readonly string[],
  options: Readonly<Record<string, { readonly type: 'string' | 'boolean'; readonly multiple?: boolean }>>,
  { oneEach = false }: { readonly oneEach?: boolean } = {},
): string[] {
  const gathered: string[] = [];
  for (let index = 0; index < args.length; index++) {
    const argument = args[index] ?? '';
    const option = argument.startsWith('--') ? options[argument.slice(2)] : undefined;
    if (option?.type !== 'string') {
      gathered.push(argument);
      continue;
    }
    let taken = 0;
    while (index + 1 < args.length && !(args[index + 1] ?? '').startsWith('--')) {
      if (taken > 0 && (oneEach || option.multiple !== true)) break;
      gathered.push(`${argument}=${args[index + 1] ?? ''}`);
      index++;
      taken++;
    }
    if (taken === 0) gathered.push(argument);
  }
  return gathered;
}
