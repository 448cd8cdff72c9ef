/** The days a time line spans: after one day and up to another; what is open is drawn up to `openTo`. */
export type TimeSpan = { readonly after: string; readonly to: string; readonly openTo: string }

const dayMs = 86_400_000

/** Where a day lies between the ends of the line, in percent; days outside lie at its ends. */
export function percentAt(span: TimeSpan, day: string): number {
  const first = dayNumber(span.after)
  const share = (dayNumber(day) - first) / (dayNumber(span.to) - first)
  return Math.max(0, Math.min(1, share)) * 100
}

/** The first of January of each year within the line. */
export function yearStarts(span: TimeSpan): { year: string; day: string }[] {
  const first = Number(span.after.slice(0, 4))
  const last = Number(span.to.slice(0, 4))
  return Array.from({ length: last - first }, (_, place) => String(first + place + 1)).map((year) => ({
    year,
    day: `${year}-01-01`,
  }))
}

function dayNumber(day: string): number {
  return Date.parse(`${day}T00:00:00Z`) / dayMs
}
