import { z } from "zod"

const count = z.number().int()

/** The counts of the whole clinic at the end of a month, as they are kept when it is closed; a mean keeps all its digits. */
export const ClosedFigures = z.object({
  measures: z.array(
    z.object({
      measure_id: z.string(),
      population: count,
      excluded: count,
      unknown: count,
      met: count,
      exception: count,
      not_met: count,
    }),
  ),
  inMonth: z.array(z.object({ measure_id: z.string(), met: count, not_met: count, unknown: count })),
  diet: z.array(
    z.object({
      series: z.string(),
      n: count,
      mean_mg: z.number(),
      sd_mg: z.number().nullable(),
      paired_n: count,
      paired_change_mg: z.number().nullable(),
      paired_sd_mg: z.number().nullable(),
    }),
  ),
})

export type ClosedFigures = z.infer<typeof ClosedFigures>

/** Where two sets of figures differ, each place by name and the two values; nothing when they are equal to the last digit. */
export function differencesOf(kept: ClosedFigures, computed: ClosedFigures): string[] {
  const known = placesOf(kept)
  const found = placesOf(computed)
  return [...new Set([...known.keys(), ...found.keys()])]
    .filter((place) => known.get(place) !== found.get(place))
    .sort()
    .map((place) => `${place}: kept ${known.get(place) ?? "none"}, computed ${found.get(place) ?? "none"}`)
}

function placesOf({ measures, inMonth, diet }: ClosedFigures): Map<string, string> {
  const places = new Map<string, string>()
  const add = (name: string, row: Readonly<Record<string, string | number | null>>) => {
    for (const [column, value] of Object.entries(row))
      if (typeof value !== "string") places.set(`${name} ${column}`, String(value))
  }
  for (const row of measures) add(row.measure_id, row)
  for (const row of inMonth) add(`${row.measure_id} in the month`, row)
  for (const row of diet) add(`diet ${row.series}`, row)
  return places
}
