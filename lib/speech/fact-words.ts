/** The facts that decide a measure, by the column that dates them, as the name of the series of one month's own. */
const names: Readonly<Record<string, string>> = {
  bp_on: "Readings of the month only",
  counted_day: "Readings of the month only",
  urine_on: "Urine results of the month only",
  potassium_on: "Potassium results of the month only",
  sodium_in_year_on: "Diet records of the month only",
}

/** The name of the series that counts only whose deciding fact is of the month. */
export function inMonthName(fact: string | null): string {
  return names[fact ?? ""] ?? "Facts of the month only"
}
