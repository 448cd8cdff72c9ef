import type { FileKind } from "../file-kind"

export const medications: FileKind = {
  kind: "medications",
  required: ["patient_id", "drug", "started_on"],
  optional: [
    ...["code_system", "code", "dose", "dose_unit", "times_per_day", "as_needed", "route", "stopped_on"],
    ...["stop_reason", "supply_days", "order_id"],
  ],
  read(cells) {
    const patientId = cells.need.id("patient_id")
    const orderId = cells.id("order_id")
    if (orderId !== null && cells.identify({ id: orderId })) return null
    const drug = cells.need.text("drug")
    const startedOn = cells.need.eventDate("started_on")
    if (orderId === null && cells.identify({ parts: [patientId, drug, startedOn] })) return null
    const stoppedOn = cells.date("stopped_on")
    cells.ends({ column: "stopped_on", day: stoppedOn }, { column: "started_on", day: startedOn })
    return [
      patientId,
      orderId,
      drug,
      cells.word("code_system", ["rxnorm", "atc", "snomed", "ndc"]),
      cells.text("code"),
      cells.positive("dose"),
      cells.text("dose_unit"),
      cells.positive("times_per_day"),
      cells.yesOrNo("as_needed"),
      cells.text("route"),
      startedOn,
      stoppedOn,
      cells.text("stop_reason"),
      cells.positive("supply_days"),
    ]
  },
}
