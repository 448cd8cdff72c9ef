import { z } from "zod"
import type { Standing } from "../domain/standings"
import { measures } from "../measures/index"

/** A part of one standing that says what could be done next: a condition over `patient_month`, chosen by its name. */
export type Detail = {
  readonly id: string
  readonly measureId: string
  readonly standing: Standing
  readonly words: string
  readonly sql: string
  /** Whether it looks ahead of the day, so that it means nothing for a month that is over. */
  readonly isAhead: boolean
}

const visitSoon = {
  words: "with a visit in the next 14 days",
  sql: "p.next_visit_on <= p.as_of + 14",
  isAhead: true,
} as const

export const details: readonly Detail[] = [
  {
    id: "no-drug",
    measureId: "bp-at-target",
    standing: "not met",
    words: "on no class of pressure drug",
    sql: "p.class_count = 0",
    isAhead: false,
  },
  {
    id: "severe",
    measureId: "bp-at-target",
    standing: "not met",
    words: "severe",
    sql: "p.category = 'severe'",
    isAhead: false,
  },
  { id: "visit-soon", measureId: "bp-at-target", standing: "not met", ...visitSoon },
  {
    id: "no-diuretic",
    measureId: "uncontrolled-on-several-classes",
    standing: "met",
    words: "without a diuretic",
    sql: "not array_contains(p.classes, 'diuretic')", // a list of one row, which only this engine and its kin can ask
    isAhead: false,
  },
  { id: "visit-soon", measureId: "uncontrolled-on-several-classes", standing: "met", ...visitSoon },
  {
    id: "never",
    measureId: "ras-blocker-in-albuminuria",
    standing: "not met",
    words: "never tried",
    sql: "p.ras_history = 'never'",
    isAhead: false,
  },
  {
    id: "stopped",
    measureId: "ras-blocker-in-albuminuria",
    standing: "not met",
    words: "stopped",
    sql: "p.ras_history = 'stopped'",
    isAhead: false,
  },
  { id: "visit-soon", measureId: "ras-blocker-in-albuminuria", standing: "not met", ...visitSoon },
  { id: "visit-soon", measureId: "acr-tested", standing: "not met", ...visitSoon },
]

export const DetailCount = z.object({
  measure_id: z.string(),
  detail: z.string(),
  people: z.number().int(),
})

export type DetailCount = z.infer<typeof DetailCount>

const namesOfAll = details.map((detail) => `('${detail.measureId}', '${detail.id}')`).join(", ")

const holdsOfAll = details
  .flatMap((detail) => {
    const measure = measures.find((one) => one.id === detail.measureId)
    if (!measure) return []
    return [
      `when '${detail.measureId}/${detail.id}' then s.${measure.column} = '${detail.standing}' and (${detail.sql})`,
    ]
  })
  .join("\n    ")

/** How many people each detail names on a day. */
export const detailCounts = {
  sql: `
with named as (
  select * from (values ${namesOfAll}) as names(measure_id, detail)
)
select
  named.measure_id,
  named.detail,
  cast(count(*) filter (where case named.measure_id || '/' || named.detail
    ${holdsOfAll}
  end) as integer) as people
from patient_month as p
join patient_standings as s on s.patient_id = p.patient_id and s.as_of = p.as_of
cross join named
where p.as_of = cast($as_of as date) and s.as_of = cast($as_of as date)
group by named.measure_id, named.detail
order by named.measure_id, named.detail`,
  Row: DetailCount,
} as const
