import type { Measure } from "./types"

/** A measure with a deciding fact, whose readings of one month can be judged by themselves. */
type Dated = Measure & { readonly fact: string }

/**
 * The select that counts, on every as-of date, the standings of those people alone whose deciding fact is dated in that
 * calendar month: the series on which signals are judged. All measures are counted in one pass over the standings.
 */
export function inMonthSql(measures: readonly Measure[]): string {
  const dated = measures.filter(isDated)
  return `with counted as (
  select
    s.as_of,
    ${dated.flatMap(countsOf).join(",\n    ")}
  from patient_standings as s
  join patient_values as v on v.patient_id = s.patient_id and v.as_of = s.as_of
  group by s.as_of
)
${dated.map(rowsOf).join("\nunion all\n")}`
}

function isDated(measure: Measure): measure is Dated {
  return measure.fact !== null
}

function countsOf({ column, fact }: Dated): string[] {
  const count = (standing: string, name: string) =>
    `cast(count(*) filter (where s.${column} = '${standing}'
      and v.${fact} >= date_trunc('month', s.as_of) and v.${fact} <= s.as_of) as integer) as ${column}_${name}`
  return [count("met", "met"), count("not met", "not_met"), count("unknown", "unknown")]
}

function rowsOf({ id, column }: Dated): string {
  return `select '${id}' as measure_id, c.as_of, c.${column}_met as met, c.${column}_not_met as not_met, c.${column}_unknown as unknown
from counted as c`
}
