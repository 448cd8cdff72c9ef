/** The facts of a month, by the column that dates the fact that decides a measure. */
const names: Readonly<Record<string, string>> = {
  bp_on: "readings",
  counted_day: "readings",
  urine_on: "urine results",
  potassium_on: "potassium results",
  sodium_in_year_on: "diet records",
}

/** The series that counts only whose deciding fact is of the month, within a sentence: "readings of the month". */
export function inMonthSeries(fact: string | null): string {
  return `${names[fact ?? ""] ?? "facts"} of the month`
}

/** Its name above a chart: "Readings of the month only". */
export function inMonthName(fact: string | null): string {
  const series = inMonthSeries(fact)
  return `${series.charAt(0).toUpperCase()}${series.slice(1)} only`
}
