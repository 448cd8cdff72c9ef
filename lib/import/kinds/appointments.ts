import type { FileKind } from "../file-kind"
import { visitKinds } from "./visits"

export const appointments: FileKind = {
  kind: "appointments",
  required: ["appointment_id", "patient_id", "starts_at"],
  optional: ["clinician_id", "kind", "status"],
  read(cells) {
    const patientId = cells.need.id("patient_id")
    const appointmentId = cells.need.id("appointment_id")
    if (cells.identify({ id: appointmentId })) return null
    const starts = cells.need.time("starts_at")
    return [
      patientId,
      appointmentId,
      starts.instant,
      starts.isDateOnly,
      cells.id("clinician_id"),
      cells.word("kind", visitKinds),
      cells.word("status", ["booked", "kept", "cancelled", "missed"]) ?? "booked",
    ]
  },
}
