import { z } from "zod"

/** How an import stands: `asks` waits for a person, `refused` and `failed` stored nothing. */
export const ImportStatus = z.enum(["waiting", "running", "done", "asks", "refused", "failed"])

export type ImportStatus = z.infer<typeof ImportStatus>

const count = z.number().int().nonnegative()

/** What an import has to tell about one file beside its counts. */
export const FileNotes = z.object({
  /** Why the whole file was rejected. */
  problem: z.string().nullable().default(null),
  encoding: z.enum(["ascii", "utf-8", "windows-1252"]).nullable().default(null),
  unknownColumns: z.array(z.string()).default([]),
  unknownClinicians: count.default(0),
  /** Rows whose merged_into names the patient itself, a circle, or nobody. */
  brokenMerges: count.default(0),
  testPatients: count.default(0),
  /** Facts whose id came back under another patient. */
  moved: count.default(0),
  /** Rows whose LOINC code speaks of another unit than they have; the unit decided. */
  unitDisagreements: count.default(0),
  /** LOINC codes on no list: kept, not used, for a person to map. */
  unlistedLoinc: z.array(z.object({ code: z.string(), rows: count })).default([]),
  /** Rejected rows that would have been newer versions of facts; the older ones stay in force. */
  olderKept: count.default(0),
  /** Rows without an id that took the place of an older one by their order; the first of them by line. */
  replacedInOrder: count.default(0),
  replacedLines: z.array(z.object({ line: count, olderImport: count, olderLine: count })).default([]),
  /** Facts withdrawn because a full extract no longer has them. */
  withdrawnByFull: count.default(0),
})

export type FileNotes = z.infer<typeof FileNotes>

export const FileReport = z.object({
  file: z.string(),
  kind: z.string(),
  dataRows: count,
  added: count,
  changed: count,
  unchanged: count,
  withdrawn: count,
  held: count,
  rejected: count,
  isRejected: z.boolean(),
  notes: FileNotes,
})

export type FileReport = z.infer<typeof FileReport>

/** Why an import stopped before storing: so much was bad, or so much would go, that a person should look first. */
export const ImportQuestion = z.object({
  rejects: z.array(z.object({ file: z.string(), dataRows: count, rejected: count, held: count })),
  withdrawals: z.array(z.object({ file: z.string(), withdrawn: count, inForce: count })),
  limits: z.object({ rejectShare: z.number(), rejectRows: z.number(), withdrawShare: z.number() }),
})

export type ImportQuestion = z.infer<typeof ImportQuestion>
