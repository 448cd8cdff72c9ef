import { z } from "zod"
import type { Standing } from "../domain/standings"
import { measures } from "../measures/index"
import { resistanceDetails } from "./resistance-details"

/** A part of one standing that says what could be done next: a condition over `patient_month`, chosen by its name. */
export type Detail = {
  readonly id: string
  readonly measureId: string
  readonly standing: Standing
  readonly words: string
  readonly sql: string
  /** Whether it looks ahead of the day, so that it means nothing for a month that is over. */
  readonly isAhead: boolean
  /** Whether the Month screen names it, beside the measure's own page. */
  readonly isOnMonth: boolean
}

const visitSoon = {
  words: "with a visit in the next 14 days",
  sql: "p.next_visit_on <= p.as_of + 14",
  isAhead: true,
  isOnMonth: true,
} as const

export const details: readonly Detail[] = [
  {
    id: "no-drug",
    measureId: "bp-at-target",
    standing: "not met",
    words: "on no class of pressure drug",
    sql: "p.class_count = 0",
    isAhead: false,
    isOnMonth: true,
  },
  {
    id: "severe",
    measureId: "bp-at-target",
    standing: "not met",
    words: "severe",
    sql: "p.category = 'severe'",
    isAhead: false,
    isOnMonth: true,
  },
  { id: "visit-soon", measureId: "bp-at-target", standing: "not met", ...visitSoon },
  ...resistanceDetails,
  { id: "visit-soon", measureId: "uncontrolled-on-several-classes", standing: "met", ...visitSoon },
  {
    id: "never",
    measureId: "ras-blocker-in-albuminuria",
    standing: "not met",
    words: "never tried",
    sql: "p.ras_history = 'never'",
    isAhead: false,
    isOnMonth: true,
  },
  {
    id: "stopped",
    measureId: "ras-blocker-in-albuminuria",
    standing: "not met",
    words: "stopped",
    sql: "p.ras_history = 'stopped'",
    isAhead: false,
    isOnMonth: true,
  },
  { id: "visit-soon", measureId: "ras-blocker-in-albuminuria", standing: "not met", ...visitSoon },
  {
    id: "severe",
    measureId: "untreated-above-target",
    standing: "met",
    words: "severe",
    sql: "p.category = 'severe'",
    isAhead: false,
    isOnMonth: true,
  },
  { id: "visit-soon", measureId: "untreated-above-target", standing: "met", ...visitSoon },
  {
    id: "diabetes",
    measureId: "sglt2-in-ckd",
    standing: "not met",
    words: "with diabetes",
    sql: "p.diabetes",
    isAhead: false,
    isOnMonth: true,
  },
  {
    id: "heart-failure",
    measureId: "sglt2-in-ckd",
    standing: "not met",
    words: "with heart failure",
    sql: "p.heart_failure",
    isAhead: false,
    isOnMonth: true,
  },
  {
    id: "albuminuria",
    measureId: "sglt2-in-ckd",
    standing: "not met",
    words: "with an ACR of 200 mg/g or more",
    sql: "p.is_acr_200",
    isAhead: false,
    isOnMonth: true,
  },
  { id: "visit-soon", measureId: "sglt2-in-ckd", standing: "not met", ...visitSoon },
  { id: "visit-soon", measureId: "seen-by-dietitian", standing: "not met", ...visitSoon },
  { id: "visit-soon", measureId: "acr-tested", standing: "not met", ...visitSoon },
  {
    id: "no-egfr",
    measureId: "kidney-tests-in-diabetes",
    standing: "not met",
    words: "without an eGFR",
    sql: "not p.has_egfr_in_year",
    isAhead: false,
    isOnMonth: true,
  },
  {
    id: "no-acr",
    measureId: "kidney-tests-in-diabetes",
    standing: "not met",
    words: "without an ACR",
    sql: "not p.has_acr_in_year",
    isAhead: false,
    isOnMonth: true,
  },
  { id: "visit-soon", measureId: "kidney-tests-in-diabetes", standing: "not met", ...visitSoon },
  {
    id: "few-egfr",
    measureId: "monitoring-on-schedule",
    standing: "not met",
    words: "with fewer eGFR days than asked for",
    sql: "p.egfr_days_in_year < p.tests_due",
    isAhead: false,
    isOnMonth: true,
  },
  {
    id: "no-urine",
    measureId: "monitoring-on-schedule",
    standing: "not met",
    words: "without an ACR or PCR",
    sql: "not p.is_urine_tested_in_year",
    isAhead: false,
    isOnMonth: true,
  },
  { id: "visit-soon", measureId: "monitoring-on-schedule", standing: "not met", ...visitSoon },
  { id: "visit-soon", measureId: "fast-decline", standing: "met", ...visitSoon },
  { id: "visit-soon", measureId: "failure-risk", standing: "met", ...visitSoon },
  { id: "visit-soon", measureId: "potassium-high-on-ras", standing: "met", ...visitSoon },
  { id: "visit-soon", measureId: "low-pressure-on-drugs", standing: "met", ...visitSoon },
]

export const DetailCount = z.object({
  measure_id: z.string(),
  detail: z.string(),
  people: z.number().int(),
})

export type DetailCount = z.infer<typeof DetailCount>

const asked = details.flatMap((detail) => {
  const measure = measures.find((one) => one.id === detail.measureId)
  return measure ? [{ detail, holds: `s.${measure.column} = '${detail.standing}' and (${detail.sql})` }] : []
})

/** How many people each detail names on a day; everyone is looked at once for all of them. */
export const detailCounts = {
  sql: `
with counted as materialized (
  select
    ${asked.map(({ holds }, place) => `count(*) filter (where ${holds}) as detail_${place}`).join(",\n    ")}
  from patient_month as p
  join patient_standings as s on s.patient_id = p.patient_id and s.as_of = p.as_of
  where p.as_of = cast($as_of as date) and s.as_of = cast($as_of as date)
)
${asked
  .map(
    ({ detail }, place) =>
      `select '${detail.measureId}' as measure_id, '${detail.id}' as detail, cast(detail_${place} as integer) as people from counted`,
  )
  .join("\nunion all\n")}
order by measure_id, detail`,
  Row: DetailCount,
} as const
