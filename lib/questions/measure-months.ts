import { z } from "zod"

export const MeasureMonth = z.object({
  measure_id: z.string(),
  as_of: z.string(),
  population: z.number().int(),
  excluded: z.number().int(),
  unknown: z.number().int(),
  met: z.number().int(),
  exception: z.number().int(),
  not_met: z.number().int(),
})

export type MeasureMonth = z.infer<typeof MeasureMonth>

const columnsOf = (row: string) =>
  ["measure_id", "as_of", "population", "excluded", "unknown", "met", "exception", "not_met"]
    .map((column) => `${row}.${column}`)
    .join(", ")

/** The counts of every measure on every as-of date, earliest first; a date without anyone in the panel has no row. */
export const measureMonths = {
  sql: `
select ${columnsOf("m")}
from measure_months as m
order by m.measure_id, m.as_of`,
  Row: MeasureMonth,
} as const

/** The same by today's facts and settings throughout: a month that was closed does not stand as it was known then. */
export const measureMonthsOfToday = {
  sql: `
select ${columnsOf("m")}
from measure_months as m
where m.as_of not in (select c.as_of from closed_months as c)
union all
select ${columnsOf("t")}
from measure_months_today as t
order by measure_id, as_of`,
  Row: MeasureMonth,
} as const
