import { readContactHistory, type PersonHistory } from "../../../../../lib/store/contact-history"
import { readDecisionHistory } from "../../../../../lib/store/decision-history"
import { findPatientId } from "../../../../../lib/store/patients"
import { readPersonFacts, type PersonFile } from "../../../../../lib/store/person-facts"
import { recordsOfPerson } from "../../../../../lib/store/person-records"
import { wordsOfPerson } from "../../../../../lib/store/person-words"
import { inCallerScope } from "../../../../_http/in-caller-scope"
import { clinicTimeZone } from "../../../time-zone"

export type PersonRecord = {
  /** The numbers under which the clinic's records system has the person. */
  patientIds: readonly string[]
  people: readonly string[]
  files: readonly PersonFile[]
  histories: readonly PersonHistory[]
}

/** Everything held about the person of an opaque id, as far as the caller may see it; null for nobody. */
export async function readRecord(publicId: string): Promise<PersonRecord | null> {
  const timeZone = await clinicTimeZone()
  return inCallerScope(async (transaction) => {
    const patientId = await findPatientId(transaction, publicId)
    if (patientId === null) return null
    const records = await recordsOfPerson(transaction, patientId)
    const patientIds = records.map((one) => one.patientId)
    const files = await readPersonFacts(transaction, { patientIds, timeZone })
    const contacts = await readContactHistory(transaction, patientIds)
    const decisions = await readDecisionHistory(transaction, patientIds)
    const people = records.map((one) => one.publicId)
    return { patientIds, people, files, histories: [contacts, decisions] }
  })
}

/** What a text could name the person by, as far as the caller may see them; null for nobody. */
export async function readRecordWords(publicId: string): Promise<string[] | null> {
  return inCallerScope(async (transaction) => {
    const patientId = await findPatientId(transaction, publicId)
    if (patientId === null) return null
    const records = await recordsOfPerson(transaction, patientId)
    const known = await wordsOfPerson(
      transaction,
      records.map((one) => one.patientId),
    )
    return [...known.numbers, ...known.givenNames, ...known.familyNames, ...known.addresses]
  })
}
