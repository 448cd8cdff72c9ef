import { tiers, type Reason, type ReasonValue } from "./types"

/**
 * The select of every reason that holds for a person in the panel on one day, `$as_of`, and that the clinic has not switched
 * off: `patient_id`, `reason`, `tier`, `ordered` (its place in the order the clinic set, 0 without one),
 * `place` (that in the program's), `fact_on`, `value`, `second_value`, `comparator` and `falls_out_on`.
 * Each condition is evaluated in one pass over the wide row.
 */
export function heldReasonsSql(reasons: readonly Reason[]): string {
  return rowsSql(reasons, { people: "p.in_panel", rows: (place) => `a.holds_${place}`, isOn })
}

/** The same for everybody with a row of that day and every reason, whether it holds or not: the facts it would speak of. */
export function factsOfReasonsSql(reasons: readonly Reason[]): string {
  return rowsSql(reasons, { people: "true", rows: () => "true", isOn: () => "true" })
}

/** What is urgent is never left out, whatever is on record. */
function isOn(reason: Reason): string {
  return reason.tier === "urgent" ? "true" : `${placeIn("outreach_reasons_off", reason)} = 0`
}

/** Where a reason stands in a list of the settings, 0 where it is not named; ids are constants of the program. */
function placeIn(list: "outreach_reasons_off" | "outreach_reason_order", reason: Reason): string {
  return `position(' ${reason.id} ' in ' ' || t.${list} || ' ')`
}

function rowsSql(
  reasons: readonly Reason[],
  those: { people: string; rows: (place: number) => string; isOn: (reason: Reason) => string },
): string {
  const columns = reasons.flatMap((reason, place) =>
    Object.entries(columnsOf(reason, those.isOn(reason))).map(([name, sql]) => `${sql} as ${name}_${place}`),
  )
  const rows = reasons.map(
    (reason, place) => `select a.patient_id, '${reason.id}' as reason,
    ${tiers.indexOf(reason.tier)} as tier, a.ordered_${place} as ordered,
    ${place} as place, a.fact_on_${place} as fact_on,
    a.value_${place} as value, a.second_value_${place} as second_value, a.comparator_${place} as comparator,
    a.falls_out_on_${place} as falls_out_on
  from asked as a where ${those.rows(place)}`,
  )
  return `with asked as materialized (
  select
    p.patient_id,
    ${columns.join(",\n    ")}
  from patient_month as p
  join patient_standings as s on s.patient_id = p.patient_id and s.as_of = p.as_of
  join recent_facts_at as r on r.patient_id = p.patient_id and r.as_of = p.as_of
  cross join settings as t
  where ${those.people} and p.as_of = cast($as_of as date)
)
${rows.join("\nunion all\n")}`
}

function columnsOf(reason: Reason, isOn: string): Record<string, string> {
  const { value, second, comparator } = amountsOf(reason.value)
  return {
    holds: `coalesce((${reason.sql}), false) and ${isOn}`,
    ordered: placeIn("outreach_reason_order", reason),
    fact_on: `cast(${reason.factOn} as date)`,
    value: `cast(${value} as double)`,
    second_value: `cast(${second} as double)`,
    comparator: `cast(${comparator} as varchar)`,
    falls_out_on: `cast(${reason.fallsOutOn ?? "null"} as date)`,
  }
}

function amountsOf(value: ReasonValue): { value: string; second: string; comparator: string } {
  const none = { value: "null", second: "null", comparator: "null" }
  switch (value.kind) {
    case "none":
      return none
    case "amount":
      return { ...none, value: value.amount, comparator: value.comparator ?? "null" }
    case "pressure":
      return { ...none, value: value.systolic, second: value.diastolic }
  }
}
