import type { ActiveDrug } from "../../lib/questions/active-drugs"
import { doseWords } from "../../lib/speech/dose-words"
import { sentenceCase } from "../../lib/speech/format"
import { classWords } from "../_ui/class-words"

/** A class with what of it is taken. */
export type DrugGroup = { class: string | null; name: string; drugs: ActiveDrug[] }

/** The drugs of each class, and last those that count for none and raise the pressure, where there are any. */
export function drugGroups(classes: readonly string[], drugs: readonly ActiveDrug[]): DrugGroup[] {
  const counted = classes.map((name) => ({
    class: name,
    name: sentenceCase(classWords(name)),
    drugs: drugs.filter((drug) => drug.class === name),
  }))
  const uncounted = drugs.filter((drug) => drug.class === null)
  if (uncounted.length === 0) return counted
  return [...counted, { class: null, name: "Raises the pressure", drugs: uncounted }]
}

/** A drug with its dose as ordered, and the usual maximum a day: "carvedilol 6.25 mg twice (maximum 80 mg)". */
export function drugWords(drug: ActiveDrug): string {
  const most = drug.class === null ? null : drug.max_daily_mg
  return `${drug.drug}${orderedWords(drug)}${most === null ? "" : ` (maximum ${most.toLocaleString("en-US")}\u00a0mg)`}`
}

/** A dose as ordered, after the name of its drug: " 6.25 mg twice", or what of it is not on record. */
export function orderedWords(order: {
  dose: number | null
  dose_unit: string | null
  times_per_day: number | null
}): string {
  const { dose, dose_unit: unit, times_per_day: times } = order
  if (dose === null) return ", dose not on record"
  if (times === null) return ` ${doseWords({ dose, unit, times: 1 })}, times a day not on record`
  return ` ${doseWords({ dose, unit, times })}`
}
