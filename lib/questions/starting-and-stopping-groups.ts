import { safetyExclusions } from "../measures/populations"
import type { Finding } from "./several-classes-findings"

/** One list of the screen of starting and stopping; conditions and order are over `rowsToStartOrStop`. */
export type StartingGroup = {
  readonly id: string
  readonly words: string
  readonly sql: string
  /** What narrows the list. */
  readonly findings: readonly Finding[]
  /** Most pressing first: two numbers, the larger one first. */
  readonly order: readonly [string, string]
}

const officeOnly: Finding = {
  id: "office-only",
  words: "by office pressure alone",
  sql: "p.bp_source = 'office'",
}

const excess = "greatest(p.systolic - p.systolic_limit, p.diastolic - p.diastolic_limit)"

/** The lists of the screen, in their order. */
export const startingGroups = [
  {
    id: "above-target",
    words: "above target, no pressure drug",
    sql: "s.untreated_above_target = 'met'",
    findings: [
      { id: "severe", words: "severe", sql: "p.category = 'severe'" },
      officeOnly,
      {
        id: "stopped-lately",
        words: "with a class stopped in the last 120 days",
        sql: "stops.patient_id is not null",
      },
      { id: "albuminuria", words: "with confirmed albuminuria", sql: "p.albuminuria = 'confirmed'" },
    ],
    order: ["case when p.category = 'severe' then 1 else 0 end", excess],
  },
  {
    // Whom the measure counts, at target and on no drug, from 120/80 or its equivalent out of the office.
    id: "lifestyle-first",
    words: "120/80 to target, no pressure drug",
    sql: `s.untreated_above_target = 'not met' and p.at_target and p.class_count = 0
      and (p.systolic >= equivalent_systolic(120, 80, p.bp_source)
        or p.diastolic >= equivalent_diastolic(120, 80, p.bp_source))`,
    findings: [
      officeOnly,
      {
        id: "sodium-above",
        words: "with sodium above the limit",
        sql: "s.diet_sodium_within_limit = 'not met'",
      },
      {
        id: "no-diet-record",
        words: "without a diet record in the last 12 months",
        sql: "not p.has_diet_record_in_year",
      },
    ],
    order: [excess, "p.as_of - p.bp_on"],
  },
  {
    id: "low",
    words: "low on pressure drugs",
    sql: "s.low_pressure_on_drugs = 'met'",
    findings: [
      { id: "falls", words: "with falls or dizziness on record", sql: "falls.patient_id is not null" },
      { id: "kept", words: "on a class with another reason", sql: "kept.patient_id is not null" },
      {
        id: "rebound",
        words: "on a beta blocker or clonidine-like drug",
        sql: "array_contains(p.classes, 'beta_blocker') or array_contains(p.classes, 'central_agonist')",
      },
    ],
    order: ["case when falls.patient_id is not null then 1 else 0 end", "-p.systolic"],
  },
  {
    id: "stopped",
    words: "with a class stopped in the last 120 days",
    sql: `p.in_panel and not coalesce(${safetyExclusions.map(({ sql }) => sql).join(" or ")}, false)
      and stops.patient_id is not null`,
    findings: [
      {
        id: "abrupt",
        words: "beta blocker or clonidine-like drug, no taper and no reading in 14 days",
        sql: "s.abrupt_stop = 'met'",
      },
      { id: "not-measured", words: "not measured since", sql: "stops.unmeasured_since is not null" },
      {
        id: "not-followed",
        words: "30 days and more ago, no reading in those 30 days",
        sql: "s.followed_after_stopping = 'not met'",
      },
      { id: "ran-out", words: "ran out, no stop on record", sql: "stops.is_run_out" },
    ],
    order: [
      "case when s.abrupt_stop = 'met' then 2 when stops.unmeasured_since is not null then 1 else 0 end",
      "p.as_of - coalesce(stops.unmeasured_since, stops.first_stopped_on)",
    ],
  },
] as const satisfies readonly StartingGroup[]

export type StartingGroupId = (typeof startingGroups)[number]["id"]

/** A finding with the list it narrows. */
export type StartingFinding = Finding & { readonly group: StartingGroupId }

/** The findings of all lists, in the order in which questions answer them. */
export const startingFindings: readonly StartingFinding[] = startingGroups.flatMap((group) =>
  group.findings.map((finding) => ({ ...finding, group: group.id })),
)
