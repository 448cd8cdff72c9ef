/** One dose as ordered: "50 mg", "12.5 mg twice", "25 mg, 4 a day"; empty where no dose is on record. */
export function doseWords(dose: { dose: number | null; unit: string | null; times: number }): string {
  const once = `${dose.dose?.toLocaleString("en-US") ?? ""} ${dose.unit ?? ""}`.trim()
  if (dose.times === 1) return once
  if (dose.times === 2) return `${once} twice`
  if (dose.times === 3) return `${once} three times`
  return `${once}, ${dose.times.toLocaleString("en-US")} a day`
}
