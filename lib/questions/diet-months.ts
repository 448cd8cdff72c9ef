import { z } from "zod"

export const DietMonth = z.object({
  as_of: z.string(),
  series: z.string(),
  n: z.number().int(),
  mean_mg: z.number(),
  sd_mg: z.number().nullable(),
  paired_n: z.number().int(),
  paired_change_mg: z.number().nullable(),
  paired_sd_mg: z.number().nullable(),
})

export type DietMonth = z.infer<typeof DietMonth>

const columnsOf = (row: string) =>
  ["as_of", "series", "n", "mean_mg", "sd_mg", "paired_n", "paired_change_mg", "paired_sd_mg"]
    .map((column) => `${row}.${column}`)
    .join(", ")

/** The mean sodium of each series on every as-of date that has a record in its month, earliest first. */
export const dietMonths = {
  sql: `
select ${columnsOf("d")}
from diet_months as d
order by d.as_of, d.series`,
  Row: DietMonth,
} as const

/** What today's facts and settings make of a month that was closed, by series; no row of another month. */
export const dietMonthsToday = {
  sql: `
select ${columnsOf("d")}
from diet_months_today as d
where d.as_of = cast($as_of as date)
order by d.series`,
  Row: DietMonth,
} as const

/** Every month by today's facts and settings: one that was closed does not stand as it was known then. */
export const dietMonthsOfToday = {
  sql: `
select ${columnsOf("d")}
from diet_months as d
where d.as_of not in (select c.as_of from closed_months as c)
union all
select ${columnsOf("t")}
from diet_months_today as t
order by as_of, series`,
  Row: DietMonth,
} as const
