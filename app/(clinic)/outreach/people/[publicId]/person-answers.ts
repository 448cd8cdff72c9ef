import "server-only"
import { plainToday } from "../../../../../lib/domain/plain-date"
import type { SnapshotMeta } from "../../../../../lib/engine/snapshot-meta"
import { personToContact, type PersonToContact } from "../../../../../lib/questions/person-to-contact"
import { caseOfPerson, type PersonsCase } from "../../../../../lib/store/case-of-person"
import { store } from "../../../../../lib/store/client"
import { ask, callerScope } from "../../../../_http/ask"
import { clinicTimeZone } from "../../../time-zone"
import { rowsWithPeople, type RowOfList } from "../../rows-with-people"

/** The case of a person with its history, and the row it makes on the list. */
export type ShownCase = { kept: PersonsCase; row: RowOfList }

export type PersonAnswers = {
  person: PersonToContact
  /** Null for whom there never was a reason to contact. */
  shown: ShownCase | null
  today: string
  timeZone: string
}

/** Everything the page of one person to contact says; null when nobody in scope has the id. */
export async function personAnswers(
  snapshot: SnapshotMeta,
  publicId: string,
  now: Date,
): Promise<PersonAnswers | null> {
  const [people, kept, timeZone] = await Promise.all([
    ask(personToContact, { public_id: publicId, as_of: snapshot.runningAsOf }),
    caseOfPerson(store(), { scope: await callerScope(), publicId }),
    clinicTimeZone(),
  ])
  const person = people[0]
  if (!person) return null
  const [row] = kept === null ? [] : await rowsWithPeople([kept.one], snapshot)
  const shown = kept === null || !row ? null : { kept, row }
  return { person, shown, timeZone, today: plainToday(now, timeZone) }
}
