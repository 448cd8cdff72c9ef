import type { DietPoint } from "../../lib/questions/patient-diet"

/** A 24-hour urine and what its creatinine says. */
export type JudgedUrine = Pick<
  DietPoint,
  "completeness" | "missing" | "creatinine_mmol" | "creatinine_comparator" | "least_creatinine_mmol"
>

/** Where the range of a fall in pressure is from. */
export const effectSource =
  "Less systolic: from 1.1 mmHg for each 50 mmol (1,150 mg) a day in 133 trials, short ones included (Huang 2020, BMJ 368:m315, doi:10.1136/bmj.m315; read: abstract) to 6.9 mmHg for 73.5 mmol (1,690 mg) in trials in kidney disease (Cochrane review CD010070, 2021, doi:10.1002/14651858.CD010070.pub3; read: abstract)."

/** Where the limit of a complete 24-hour urine is from, and what it cannot tell. */
export const urineSource =
  "24-hour urine: creatinine of at least 4 mmol in women and 6 in men (Annu Rev Nutr 2015;35:349-387, Table 5; read). None of the usual checks is reliable, and little muscle gives a low creatinine too (John 2016, J Clin Hypertens 18:456-467, doi:10.1111/jch.12763; read: abstract). Volume and weight are not in the extract."

/** What is missing of a 24-hour urine that cannot be judged. */
export const missingWords = {
  creatinine: "no creatinine of that day",
  sex: "sex not on record",
}

/** The range of a mean fall in systolic pressure in whole mmHg: "about 2 to 7 mmHg", "up to 1 mmHg", "under 1 mmHg". */
export function fallWords(range: { least: number; most: number }): string {
  const [least, most] = [Math.round(range.least), Math.round(range.most)]
  if (most === 0) return "under 1\u00a0mmHg"
  if (least === 0) return `up to ${most}\u00a0mmHg`
  return least === most ? `about ${most}\u00a0mmHg` : `about ${least} to ${most}\u00a0mmHg`
}

/** What the creatinine of a 24-hour urine says of its completeness, with the numbers; null of any other record. */
export function completenessWords(record: JudgedUrine): string | null {
  const { completeness, missing, least_creatinine_mmol: least } = record
  if (completeness === null) return null
  if (completeness === "complete")
    return `complete by its creatinine (${creatinine(record)}, at least ${least})`
  if (completeness === "doubtful")
    return `completeness doubtful (creatinine ${creatinine(record)}, under the ${least} of a complete collection)`
  const reasons = {
    ...missingWords,
    number: `creatinine only known as ${creatinine(record)}`,
  }
  return `completeness cannot be judged (${missing === null ? "not known why" : reasons[missing]})`
}

function creatinine(record: JudgedUrine): string {
  const { creatinine_mmol: mmol, creatinine_comparator: comparator } = record
  const number = (mmol ?? 0).toLocaleString("en-US", { maximumFractionDigits: 1 })
  return `${comparator ?? ""}${number}\u00a0mmol`
}
