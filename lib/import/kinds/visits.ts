import type { FileKind } from "../file-kind"

export const visitKinds = ["office", "telehealth", "emergency", "inpatient", "dialysis"] as const

export const visits: FileKind = {
  kind: "visits",
  required: ["visit_id", "patient_id", "started_on", "kind"],
  optional: ["ended_on", "clinician_id"],
  read(cells) {
    const patientId = cells.need.id("patient_id")
    const visitId = cells.need.id("visit_id")
    if (cells.identify({ id: visitId })) return null
    const startedOn = cells.need.eventDate("started_on")
    const endedOn = cells.date("ended_on")
    cells.ends({ column: "ended_on", day: endedOn }, { column: "started_on", day: startedOn })
    const kind = cells.need.word("kind", visitKinds)
    return [patientId, visitId, startedOn, endedOn, kind, cells.id("clinician_id")]
  },
}
