import type { DietPoint } from "../../../../lib/questions/patient-diet"

/** The range of a mean fall in systolic pressure in whole mmHg: "about 2 to 7 mmHg", "up to 1 mmHg", "under 1 mmHg". */
export function fallWords(range: { least: number; most: number }): string {
  const [least, most] = [Math.round(range.least), Math.round(range.most)]
  if (most === 0) return "under 1\u00a0mmHg"
  if (least === 0) return `up to ${most}\u00a0mmHg`
  return least === most ? `about ${most}\u00a0mmHg` : `about ${least} to ${most}\u00a0mmHg`
}

/** What the creatinine of a 24-hour urine says of its completeness, with the numbers; null of any other record. */
export function completenessWords(record: DietPoint): string | null {
  const { completeness, missing, least_creatinine_mmol: least } = record
  if (completeness === null) return null
  if (completeness === "complete")
    return `complete by its creatinine (${creatinine(record)}, at least ${least})`
  if (completeness === "doubtful")
    return `completeness doubtful (creatinine ${creatinine(record)}, under the ${least} of a complete collection)`
  const reasons = {
    creatinine: "no creatinine of that day",
    sex: "sex not on record",
    number: `creatinine only known as ${creatinine(record)}`,
  }
  return `completeness cannot be judged (${missing === null ? "not known why" : reasons[missing]})`
}

function creatinine(record: DietPoint): string {
  const { creatinine_mmol: mmol, creatinine_comparator: comparator } = record
  const number = (mmol ?? 0).toLocaleString("en-US", { maximumFractionDigits: 1 })
  return `${comparator ?? ""}${number}\u00a0mmol`
}
