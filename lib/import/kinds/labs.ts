import type { FileKind } from "../file-kind"
import { readLabResult, readLabTest } from "../lab-result"

export const labs: FileKind = {
  kind: "labs",
  required: ["patient_id", "collected_at", "test", "value", "unit"],
  optional: ["status", "haemolysed", "lab_id"],
  read(cells, { labCodes, remarks }) {
    const patientId = cells.need.id("patient_id")
    const labId = cells.id("lab_id")
    if (labId !== null && cells.identify({ id: labId })) return null
    const collected = cells.need.eventTime("collected_at")
    const test = readLabTest(cells, labCodes)
    const parts = [patientId, collected.instant, test.test]
    if (labId === null && cells.identify({ parts })) return null
    const result = readLabResult(cells, test, labCodes)
    remarks.unlistedLoinc = test.isUsed ? null : test.loinc
    remarks.isUnitOdd = result.isUnitOdd
    return [
      patientId,
      labId,
      collected.instant,
      collected.isDateOnly,
      test.test,
      test.loinc,
      test.isUsed,
      result.comparator,
      result.value,
      result.number,
      result.unit,
      cells.word("status", ["final", "corrected", "preliminary"]) ?? "final",
      cells.yesOrNo("haemolysed"),
      cells.text("value"),
      cells.text("unit"),
    ]
  },
}
