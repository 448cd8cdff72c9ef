/** The sex recorded at birth as it is told; the records may know none. */
export function sexWords(sex: string): string {
  return sex === "female" || sex === "male" ? `recorded ${sex} at birth` : "sex at birth not recorded"
}
