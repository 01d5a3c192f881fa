/** Requests about ports, profiles and the open readout. */
import { z } from 'zod';
import { atFirstUse } from '../at-first-use.ts';
import { NAME_LENGTH_MAX, PREVIEW_LINES_MAX, TEXT_LENGTH_MAX } from '../limits.ts';
import { specimenFile } from '../specimen/specimen-file.ts';
import { nothing, wallMs } from './message.ts';
import { channelStatus } from './reading.ts';
import { CHANNELS_MAX, readoutProfile } from './readout-profile.ts';
import { secondReadout } from './second-readout.ts';
import { listedPort, source } from './source.ts';

/** A raw line and what became of it, side by side. */
export const previewLine = atFirstUse(() =>
  z.strictObject({
    /** Number of the line since the readout was opened. */
    line: z.number().int().nonnegative(),
    /** The bytes as latin-1 text without their terminator, cut at 200 characters; the record keeps the bytes. */
    text: z.string().max(200),
    /** Why the line gave no reading at all ("before-sync", "too-long", …); null where it gave one. */
    misfit: z.string().max(60).nullable(),
    values: z
      .array(z.strictObject({ key: z.string(), status: channelStatus, shownText: z.string().max(80) }))
      .max(CHANNELS_MAX),
  }),
);
export type PreviewLine = z.infer<typeof previewLine>;

export const preview = atFirstUse(() =>
  z.strictObject({
    lines: z.array(previewLine).max(PREVIEW_LINES_MAX),
    /** Bytes that came without any end of line so far. */
    bytesWithoutLine: z.number().int().nonnegative(),
    /** The same of a second instrument. */
    second: z
      .strictObject({
        lines: z.array(previewLine).max(PREVIEW_LINES_MAX),
        bytesWithoutLine: z.number().int().nonnegative(),
      })
      .optional(),
  }),
);
export type Preview = z.infer<typeof preview>;

export const readoutRequests = {
  'port.list': {
    request: nothing,
    /** `note` says why the list may be short; a path can always be typed by hand. */
    reply: atFirstUse(() =>
      z.strictObject({
        ports: z.array(listedPort).max(500),
        note: z.string().max(TEXT_LENGTH_MAX).nullable(),
      }),
    ),
  },
  'readout.profiles': {
    request: nothing,
    reply: atFirstUse(() =>
      z.strictObject({
        profiles: z
          .array(
            z.strictObject({
              profile: readoutProfile,
              builtIn: z.boolean(),
              savedWallMs: wallMs.nullable(),
            }),
          )
          .max(1000),
      }),
    ),
  },
  /** The simulated frame's scenarios that ship, the one to be offered first at the head. */
  'readout.scenarios': {
    request: nothing,
    reply: atFirstUse(() =>
      z.strictObject({
        scenarios: z
          .array(
            z.strictObject({
              name: z.string().max(NAME_LENGTH_MAX),
              title: z.string().max(NAME_LENGTH_MAX),
              notes: z.string().max(TEXT_LENGTH_MAX).nullable(),
              specimen: specimenFile,
              profileName: z.string().max(NAME_LENGTH_MAX),
            }),
          )
          .max(100),
      }),
    ),
  },
  /** Keeps the profile under its name; the one before stays in the archive and is no longer offered. */
  'readout.save-profile': { request: z.strictObject({ profile: readoutProfile }), reply: nothing },
  /** Opens the port, or both ports; lines come as `preview` events, nothing is recorded. */
  'readout.open': {
    request: z.strictObject({ source, profile: readoutProfile, second: secondReadout.optional() }),
    reply: atFirstUse(() => z.strictObject({ words: z.string().max(TEXT_LENGTH_MAX) })),
  },
  /** Refused while a pull is recorded. */
  'readout.close': { request: nothing, reply: nothing },
  'readout.preview': { request: nothing, reply: preview },
} as const;
