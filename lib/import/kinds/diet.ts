import { compareDecimals } from "../decimals"
import type { FileKind } from "../file-kind"

export const diet: FileKind = {
  kind: "diet",
  required: ["patient_id", "recorded_on", "method", "sodium_mg"],
  optional: ["potassium_mg", "energy_kcal", "protein_g", "diet_id"],
  read(cells) {
    const patientId = cells.need.id("patient_id")
    const dietId = cells.id("diet_id")
    if (dietId !== null && cells.identify({ id: dietId })) return null
    const recordedOn = cells.need.eventDate("recorded_on")
    const method = cells.need.word("method", ["recall_24h", "food_record", "food_frequency"])
    if (dietId === null && cells.identify({ parts: [patientId, recordedOn, method] })) return null
    const sodiumMg = cells.need.number("sodium_mg")
    if (compareDecimals(sodiumMg, "100") < 0 || compareDecimals(sodiumMg, "20000") > 0)
      cells.reject("sodium_mg", "implausible", "must be from 100 to 20000 mg")
    return [
      patientId,
      dietId,
      recordedOn,
      method,
      sodiumMg,
      cells.number("potassium_mg"),
      cells.number("energy_kcal"),
      cells.number("protein_g"),
    ]
  },
}
