/** Where readings come from, as data: what a person chose, kept in the record of the pull. */
import { z } from 'zod';
import { atFirstUse } from '../at-first-use.ts';
import { importPlan } from '../exchange/import/import-plan.ts';
import { NAME_LENGTH_MAX } from '../limits.ts';

const pathText = z.string().min(1).max(4096);
const hostText = z.string().min(1).max(253);
const tcpPort = z.int().min(1).max(65_535);

/**
 * Clues to which adapter it is, from the strongest to the weakest: serial number with vendor and product,
 * vendor and product, place on the bus, path. Cheap adapters leave out any of them.
 */
export const portIdentity = atFirstUse(() =>
  z.strictObject({
    vendorId: z.string().max(NAME_LENGTH_MAX).optional(),
    productId: z.string().max(NAME_LENGTH_MAX).optional(),
    serialNumber: z.string().max(NAME_LENGTH_MAX).optional(),
    /** Where it is plugged in ("usb-0000:00:14.0-2"), as the system names it. */
    location: z.string().max(NAME_LENGTH_MAX).optional(),
    manufacturer: z.string().max(NAME_LENGTH_MAX).optional(),
  }),
);
export type PortIdentity = z.infer<typeof portIdentity>;

/** One port of the list that is offered. */
export const listedPort = z.strictObject({ path: pathText, identity: portIdentity });
export type ListedPort = z.infer<typeof listedPort>;

/** `true`: at the pace of the real thing; `faster`: as fast as it is taken; a number: that many times true pace. */
export const pace = z.union([z.enum(['true', 'faster']), z.number().positive().max(10_000)]);
export type Pace = z.infer<typeof pace>;

const serialSource = z.strictObject({
  kind: z.literal('serial'),
  path: pathText,
  identity: portIdentity.optional(),
});
/** A serial device server: raw bytes over TCP. */
const tcpSource = z.strictObject({ kind: z.literal('tcp'), host: hostText, port: tcpPort });

/** Those whose lines can be found out by listening alone. */
export const learnableSource = z.discriminatedUnion('kind', [serialSource, tcpSource]);
export type LearnableSource = z.infer<typeof learnableSource>;

export const source = atFirstUse(() =>
  z.discriminatedUnion('kind', [
    /** The built-in simulated frame: a scenario that ships, by name. */
    z.strictObject({
      kind: z.literal('simulated'),
      scenario: z.string().min(1).max(NAME_LENGTH_MAX),
      seed: z.int().min(0).max(4_294_967_295).optional(),
      pace: pace.optional(),
    }),
    serialSource,
    /** Bytes recorded earlier, given out again. */
    z.strictObject({ kind: z.literal('replay'), file: pathText, pace: pace.optional() }),
    tcpSource,
    z.strictObject({
      kind: z.literal('modbus-tcp'),
      host: hostText,
      port: tcpPort.default(502),
      /** One byte, 0 and 255 used for the server itself (from memory). */
      unitId: z.int().min(0).max(255),
    }),
    z.strictObject({
      kind: z.literal('modbus-rtu'),
      path: pathText,
      identity: portIdentity.optional(),
      /** 0 is the broadcast, 248 to 255 are reserved (from memory). */
      unitId: z.int().min(1).max(247),
    }),
  ]),
);
export type Source = z.infer<typeof source>;

/** What a file that is imported says of its own readings: made by a simulated frame, or given out again. */
export const IMPORTED_READINGS = ['simulated', 'replay'] as const;
export type ImportedReadings = (typeof IMPORTED_READINGS)[number];

/** Where a kept pull came from: a source, a person who typed what the display of the frame showed, or a file. */
export const pullSource = atFirstUse(() =>
  z.discriminatedUnion('kind', [
    ...source.unwrap().options,
    z.strictObject({ kind: z.literal('typed') }),
    /** A file of delimited text, and how it was read; its bytes are the raw bytes of the pull. */
    z.strictObject({
      kind: z.literal('imported'),
      file: z.string().max(NAME_LENGTH_MAX),
      plan: importPlan,
      /** Absent where the file says nothing of the kind. */
      readings: z.enum(IMPORTED_READINGS).optional(),
    }),
  ]),
);
export type PullSource = z.infer<typeof pullSource>;

export type SourceKind = Source['kind'];
export type SourceOf<Kind extends SourceKind> = Extract<Source, { kind: Kind }>;
