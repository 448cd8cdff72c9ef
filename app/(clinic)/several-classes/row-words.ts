import { severalClassesFindings } from "../../../lib/questions/several-classes-findings"
import type { SeveralClassesPerson } from "../../../lib/questions/several-classes-people"
import { numbered, sentenceCase } from "../../../lib/speech/format"

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
