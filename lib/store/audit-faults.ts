import "server-only"

/** What can be wrong with the audit log, each with its words after "The audit log is broken". */
const words = {
  missing: "there is no such entry",
  altered: "it is not what was recorded",
  "not tied to the one before": "it is not tied to the entry before",
  "other people": "its people are not those that were recorded",
  "not what was anchored": "it is not what was noted of it outside the database",
  "people of no entry": "people are kept that belong to no entry",
  "anchor altered": "a line of audit-anchors is not of this installation's key",
  "anchors gone": "the file audit-anchors of the data folder is gone",
} as const

/** `seq` is the first entry that is wrong, null where the fault is of none; `upTo` the last of those of which one is wrong. */
export type AuditFault = { seq: bigint | null; upTo?: bigint; fault: keyof typeof words }

/** "The audit log is broken at entry 5: there is no such entry." */
export function faultSentence({ seq, upTo, fault }: AuditFault): string {
  const where =
    seq === null
      ? ""
      : upTo === undefined || upTo === seq
        ? ` at entry ${seq}`
        : ` somewhere from entry ${seq} to ${upTo}`
  return `The audit log is broken${where}: ${words[fault]}.`
}
