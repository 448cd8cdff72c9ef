import "server-only"
import type { Caller } from "../../../lib/access/caller"
import type { ClinicianDecision } from "../../../lib/domain/clinician-decisions"
import { plainToday, type PlainDate } from "../../../lib/domain/plain-date"
import type { Settings } from "../../../lib/domain/settings"
import { listedRecords } from "../../../lib/questions/listed-records"
import type { ProtectionPerson } from "../../../lib/questions/protection-people"
import { store } from "../../../lib/store/client"
import { decisionsByRecord } from "../../../lib/store/clinician-decisions"
import { ask, callerScope } from "../../_http/ask"
import { mayDecide } from "../decisions/may-decide"
import { clinicTimeZone } from "../time-zone"

/** What holds for those listed as of now, which the figures follow only after the next build. */
export type ProtectionDecisions = {
  byPerson: ReadonlyMap<string, ClinicianDecision>
  /** Months that a decision without an end holds. */
  months: number
  today: PlainDate
  /** The day at which the figures stand. */
  asOf: PlainDate
  /** Whether the reader decides about ACE inhibitors and ARBs. */
  isOpen: boolean
}

/** The decisions on ACE inhibitors and ARBs about a page of people. */
export async function protectionDecisions(options: {
  caller: Caller
  people: readonly ProtectionPerson[]
  settings: Settings
  asOf: PlainDate
}): Promise<ProtectionDecisions> {
  const { caller, people, settings, asOf } = options
  const listed_ids = people.map((person) => person.public_id).join(",")
  const [records, scope, timeZone] = await Promise.all([
    ask(listedRecords, { listed_ids }),
    callerScope(),
    clinicTimeZone(),
  ])
  const byRecord = await decisionsByRecord(store(), {
    ...{ scope, topic: "ras_blocker" },
    records: records.map((one) => one.record_id),
  })
  const found = records.flatMap(({ public_id: publicId, record_id: recordId }) => {
    const decision = byRecord.get(recordId)
    return decision === undefined ? [] : [[publicId, decision] as const]
  })
  return {
    byPerson: new Map(found.toSorted(([, one], [, other]) => one.id - other.id)),
    months: settings["decisions.months"],
    today: plainToday(new Date(), timeZone),
    asOf,
    isOpen: mayDecide(caller, "ras_blocker"),
  }
}
