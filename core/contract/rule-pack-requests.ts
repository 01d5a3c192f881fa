/** Requests about rule packs of a laboratory's own, which lie in a folder as one file each. */
import { z } from 'zod';
import { atFirstUse } from '../at-first-use.ts';
import { packOrigin, rulePackFile } from '../acceptance/rule-pack.ts';
import { NAME_LENGTH_MAX } from '../limits.ts';

const PATH_LENGTH_MAX = 4_096;

/** Absent: the usual folder, beside the configuration. */
export const rulesFolder = z.string().min(1).max(PATH_LENGTH_MAX).optional();

export const ownRulePack = z.strictObject({ origin: packOrigin, pack: rulePackFile });
export type OwnRulePack = z.infer<typeof ownRulePack>;

/** A file of the folder that is no rule pack, or a wrong one. It is never used. */
export const refusedPackFile = atFirstUse(() =>
  z.strictObject({
    file: z.string().max(NAME_LENGTH_MAX),
    /** What is wrong and what to do, the first fault first. */
    sentences: z.array(z.string()).min(1),
  }),
);
export type RefusedPackFile = z.infer<typeof refusedPackFile>;

export const rulePackRequests = {
  /** Reads the folder anew. */
  'rules.folder': {
    request: z.strictObject({ rulesFolder }),
    reply: atFirstUse(() =>
      z.strictObject({
        folder: z.string(),
        /** Why the folder itself can't be read; null also where the usual one isn't there. */
        fault: z.string().nullable(),
        packs: z.array(ownRulePack),
        refused: z.array(refusedPackFile),
      }),
    ),
  },
} as const;
