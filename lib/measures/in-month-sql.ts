import type { Measure } from "./types"

/** A measure with a deciding fact, whose readings of one month can be judged by themselves. */
type Dated = Measure & { readonly fact: string }

/**
 * The select that counts, on every as-of date, the standings of those people alone whose deciding fact is dated in that
 * calendar month: the series on which signals are judged. All measures are counted in one pass over the standings, and
 * the days are compared once a person, before anything is counted: compared in each count they cost more than twice as much.
 * It reads the tables whose names end as given.
 */
export function inMonthSql(measures: readonly Measure[], ending: "" | "_today" = ""): string {
  const dated = measures.filter(isDated)
  const facts = [...new Set(dated.map((measure) => measure.fact))]
  const isOfMonth = (fact: string) => `v.${fact} >= date_trunc('month', v.as_of) and v.${fact} <= v.as_of`
  return `with of_month as (
  select
    v.patient_id,
    v.as_of,
    ${facts.map((fact) => `${isOfMonth(fact)} as is_${fact}`).join(",\n    ")}
  from patient_values${ending} as v
  where ${facts.map((fact) => `(${isOfMonth(fact)})`).join("\n    or ")}
),
standing as (
  select
    s.as_of,
    ${dated.map(({ column, fact }) => `case when m.is_${fact} then s.${column} end as ${column}`).join(",\n    ")}
  from of_month as m
  join patient_standings${ending} as s on s.patient_id = m.patient_id and s.as_of = m.as_of
),
counted as (
  select
    t.as_of,
    ${dated.flatMap(countsOf).join(",\n    ")}
  from standing as t
  group by t.as_of
),
days as (
  select s.as_of from patient_standings${ending} as s group by s.as_of
)
${dated.map(rowsOf).join("\nunion all\n")}`
}

function isDated(measure: Measure): measure is Dated {
  return measure.fact !== null
}

function countsOf({ column }: Dated): string[] {
  const count = (standing: string, name: string) =>
    `cast(count(*) filter (where t.${column} = '${standing}') as integer) as ${column}_${name}`
  return [count("met", "met"), count("not met", "not_met"), count("unknown", "unknown")]
}

function rowsOf({ id, column }: Dated): string {
  const number = (name: string) => `coalesce(c.${column}_${name}, 0) as ${name}`
  return `select '${id}' as measure_id, d.as_of, ${number("met")}, ${number("not_met")}, ${number("unknown")}
from days as d
left join counted as c on c.as_of = d.as_of`
}
