import type { Condition, Measure } from "./types"

/**
 * The select that gives every in-panel patient and as-of date its standing on every measure in one pass over `patient_month`.
 * For each measure a column of that name and `<column>_reasons`: all reasons that hold for an excluded, unknown or
 * exception standing, the shown one first.
 */
export function standingsSql(measures: readonly Measure[]): string {
  const columns = measures.flatMap((measure) => [
    `${standingExpression(measure)} as ${measure.column}`,
    `${reasonsExpression(measure)} as ${measure.column}_reasons`,
  ])
  return `select\n  p.patient_id,\n  p.as_of,\n  ${columns.join(",\n  ")}\nfrom patient_month as p\nwhere p.in_panel`
}

/** A table of standings that is counted, and how many people its rows `s` that meet a condition are. */
export type Counted = { readonly from: string; readonly people: (condition: string) => string }

/** A table with a row for each person. */
export function eachPerson(from: string): Counted {
  return { from, people: (condition) => `cast(count(*) filter (where ${condition}) as integer)` }
}

/** The select that counts the standings of every measure on every as-of date, those of `patient_standings` unless another table is named. */
export function countsSql(measures: readonly Measure[], counted = eachPerson("patient_standings")): string {
  return measures.map((measure) => countsOfOne(measure, counted)).join("\nunion all\n")
}

/** Every condition of a measure. */
export function conditionsOf(measure: Measure): readonly Condition[] {
  return [...measure.population, ...measure.excluded, ...measure.unknown, measure.met, ...measure.exception]
}

/** How it is told in SQL whether a condition holds: from a row `p` of `patient_month` unless said otherwise. */
export type Holds = (condition: Condition) => string

/** The select that evaluates every condition of a measure for one patient: `part`, `place`, `words`, `holds`. */
export function conditionsSql(measure: Measure): string {
  const rows = [
    ...rowsOf("population", measure.population),
    ...rowsOf("excluded", measure.excluded),
    ...rowsOf("unknown", measure.unknown),
    ...rowsOf("met", [measure.met]),
    ...rowsOf("exception", measure.exception),
  ]
  return rows
    .map(
      ({ part, place, condition }) =>
        `select '${part}' as part, ${place} as place, ${quoted(condition.words)} as words, ${isTrue(condition)} as holds
from patient_month as p where p.public_id = cast($public_id as varchar) and p.as_of = cast($as_of as date)`,
    )
    .join("\nunion all\n")
}

export function standingExpression(measure: Measure, holds: Holds = isTrue): string {
  const any = (conditions: readonly Condition[]) => conditions.map(holds).join(" or ")
  const when = (conditions: readonly Condition[], standing: string) =>
    conditions.length === 0 ? [] : [`when ${any(conditions)} then '${standing}'`]
  const whens = [
    `when not (${measure.population.map(holds).join(" and ")}) then 'outside'`,
    ...when(measure.excluded, "excluded"),
    ...when(measure.unknown, "unknown"),
    `when ${holds(measure.met)} then 'met'`,
    ...when(measure.exception, "exception"),
  ]
  return `case\n    ${whens.join("\n    ")}\n    else 'not met'\n  end`
}

function reasonsExpression(measure: Measure): string {
  const guard = `not (${all(measure.population)})`
  const whens = [
    `when ${guard} then []`,
    ...whenListed(measure.excluded),
    ...whenListed(measure.unknown),
    `when ${isTrue(measure.met)} then []`,
    ...whenListed(measure.exception),
  ]
  return `cast(case\n    ${whens.join("\n    ")}\n    else []\n  end as varchar[])`
}

// Lists are a construct of this engine; the reasons of one row have no portable form.
function listOf(conditions: readonly Condition[]): string {
  const words = conditions.map(
    (condition) => `case when ${isTrue(condition)} then ${quoted(condition.words)} end`,
  )
  return `list_filter([${words.join(", ")}], lambda word: word is not null)`
}

function whenListed(conditions: readonly Condition[]): string[] {
  if (conditions.length === 0) return []
  return [`when ${conditions.map(isTrue).join(" or ")} then ${listOf(conditions)}`]
}

function countsOfOne(measure: Measure, { from, people }: Counted): string {
  const count = (standing: string) => people(`s.${measure.column} = '${standing}'`)
  return `select
  '${measure.id}' as measure_id,
  s.as_of,
  ${people(`s.${measure.column} <> 'outside'`)} as population,
  ${count("excluded")} as excluded,
  ${count("unknown")} as unknown,
  ${count("met")} as met,
  ${count("exception")} as exception,
  ${count("not met")} as not_met
from ${from} as s
group by s.as_of`
}

function rowsOf(part: string, conditions: readonly Condition[]) {
  return conditions.map((condition, place) => ({ part, place, condition }))
}

function all(conditions: readonly Condition[]): string {
  return conditions.map(isTrue).join(" and ")
}

/** A condition over a missing value does not hold. */
function isTrue(condition: Condition): string {
  return `coalesce((${condition.sql}), false)`
}

function quoted(text: string): string {
  return `'${text.replaceAll("'", "''")}'`
}
