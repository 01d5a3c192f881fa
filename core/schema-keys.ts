/** Which fields a zod schema knows at a place, for telling somebody what a misspelt one may have been meant to be. */
import type { z } from 'zod';

type Schema = z.core.$ZodType;
type Definition = z.core.$ZodTypes['_zod']['def'];

/** Names of the fields of the object at `path`; of a union those of the alternatives that fit what was given. */
export function schemaKeys(schema: Schema, path: readonly PropertyKey[], input: unknown): string[] {
  const def = definitionOf(schema);
  const [field, ...rest] = path;
  if (def.type === 'object') {
    if (field === undefined) return Object.keys(def.shape);
    const inner = Object.hasOwn(def.shape, field) ? def.shape[String(field)] : undefined;
    return inner === undefined ? [] : schemaKeys(inner, rest, inside(input, field));
  }
  if (def.type === 'array')
    return field === undefined ? [] : schemaKeys(def.element, rest, inside(input, field));
  if (def.type === 'union') {
    const keys = fitting(def.options, def, input).flatMap((option) => schemaKeys(option, path, input));
    return [...new Set(keys)];
  }
  if (def.type === 'pipe') return schemaKeys(def.in, path, input);
  return 'innerType' in def ? schemaKeys(def.innerType, path, input) : [];
}

/** The alternative that the discriminator names, or all of them. */
function fitting(options: readonly Schema[], def: Definition, input: unknown): readonly Schema[] {
  const discriminator = 'discriminator' in def ? String(def.discriminator) : null;
  if (discriminator === null) return options;
  const wanted = inside(input, discriminator);
  const named = options.filter((option) => {
    const inner = definitionOf(option);
    const literal = inner.type === 'object' ? inner.shape[discriminator] : undefined;
    const values = literal === undefined ? null : definitionOf(literal);
    return values?.type === 'literal' && values.values.includes(wanted as never);
  });
  return named.length > 0 ? named : options;
}

/** Of what a schema that is built at its first use is made of, rather than of its cover. */
function definitionOf(schema: Schema): Definition {
  const { def } = (schema as z.core.$ZodTypes)._zod;
  return def.type === 'lazy' ? definitionOf(def.getter()) : def;
}

function inside(input: unknown, field: PropertyKey): unknown {
  return typeof input === 'object' && input !== null && Object.hasOwn(input, field)
    ? (input as Record<PropertyKey, unknown>)[field]
    : undefined;
}
