import type { ActiveDrug } from "../../../lib/questions/active-drugs"
import { severalClassesFindings } from "../../../lib/questions/several-classes-findings"
import type { SeveralClassesPerson } from "../../../lib/questions/several-classes-people"
import { doseWords } from "../../../lib/speech/dose-words"
import { numbered, sentenceCase } from "../../../lib/speech/format"
import { classWords } from "../../_ui/class-words"

/** The drugs of each class, and last those that count for none and raise the pressure, where there are any. */
export function drugGroups(
  classes: readonly string[],
  drugs: readonly ActiveDrug[],
): { name: string; drugs: ActiveDrug[] }[] {
  const counted = classes.map((name) => ({
    name: sentenceCase(classWords(name)),
    drugs: drugs.filter((drug) => drug.class === name),
  }))
  const uncounted = drugs.filter((drug) => drug.class === null)
  return uncounted.length === 0 ? counted : [...counted, { name: "Raises the pressure", drugs: uncounted }]
}

/** A drug with its dose as ordered, and the usual maximum a day: "carvedilol 6.25 mg twice (maximum 80 mg)". */
export function drugWords(drug: ActiveDrug): string {
  const most = drug.class === null ? null : drug.max_daily_mg
  return `${drug.drug}${orderedWords(drug)}${most === null ? "" : ` (maximum ${most.toLocaleString("en-US")}\u00a0mg)`}`
}

function orderedWords({ dose, dose_unit: unit, times_per_day: times }: ActiveDrug): string {
  if (dose === null) return ", dose not on record"
  if (times === null) return ` ${doseWords({ dose, unit, times: 1 })}, times a day not on record`
  return ` ${doseWords({ dose, unit, times })}`
}

/** What to look at in somebody, a sentence each; of gaps, how many days. */
export function findingsWords(person: SeveralClassesPerson): string[] {
  return severalClassesFindings
    .filter((_, place) => person.holds[place])
    .map((finding) =>
      finding.id === "supply-gaps" && person.supply_gap_days !== null
        ? `Without supply of a drug on ${numbered(person.supply_gap_days, "of the last 180 days")}`
        : sentenceCase(finding.words),
    )
}
