import { answerColumns, answeredStanding, datedOf, isYes, questionsOf } from "./answers"
import { measures } from "./index"
import type { Counted } from "./standing-sql"
import type { Measure } from "./types"

/**
 * The select of what settings are tried on: everyone in the panel on every as-of date as today's facts show them, with the
 * answers to whatever measures ask, and the few values from which an answer is found anew under another target, window or
 * limit.
 */
export function triedRowsSql(): string {
  const questions = measures.flatMap((measure) => [...questionsOf(measure), ...datedOf(measure)])
  return `select
  p.patient_id,
  p.as_of,
  ${answerColumns({ questions, isAsked: () => true })
    .map(named)
    .join(",\n  ")},
  cast(p.systolic as smallint) as systolic,
  cast(p.diastolic as smallint) as diastolic,
  p.bp_source,
  p.bp_on,
  cast(p.quarter_ago_systolic as smallint) as quarter_ago_systolic,
  cast(p.quarter_ago_diastolic as smallint) as quarter_ago_diastolic,
  p.quarter_ago_bp_source,
  latest.last_office_on,
  latest.last_office_systolic,
  latest.last_office_diastolic,
  latest.is_last_office_severe,
  latest.last_out_of_office_on,
  latest.last_out_of_office_systolic,
  latest.last_out_of_office_diastolic,
  latest.last_out_of_office_source,
  earlier.last_office_on as quarter_ago_office_on,
  earlier.last_office_systolic as quarter_ago_office_systolic,
  earlier.last_office_diastolic as quarter_ago_office_diastolic,
  earlier.is_last_office_severe as is_quarter_ago_office_severe,
  earlier.last_out_of_office_on as quarter_ago_out_of_office_on,
  earlier.last_out_of_office_systolic as quarter_ago_out_of_office_systolic,
  earlier.last_out_of_office_diastolic as quarter_ago_out_of_office_diastolic,
  earlier.last_out_of_office_source as quarter_ago_out_of_office_source,
  cast(p.class_count as smallint) as class_count,
  p.newest_class_on,
  p.sodium_in_year_mg
from patient_month as p
join as_of_windows as w on w.as_of = p.as_of
left join pressure_on as latest on latest.patient_id = p.patient_id and latest.day = p.as_of
left join pressure_on as earlier on earlier.patient_id = p.patient_id and earlier.day = w.quarter_after
where p.in_panel
order by p.as_of, p.patient_id`
}

type Tried = { touched: readonly Measure[]; isAsked: (question: string) => boolean }

/**
 * The select that counts how many people stand alike on all touched measures on every as-of date. Those who answer alike are
 * counted first, so that a standing is told of some thousands and not of half a million.
 */
export function triedTallySql({ touched, isAsked }: Tried): string {
  const columns = touched.map(({ column }) => column)
  return `with ${alikeSql({ isAsked, questions: touched.flatMap(questionsOf) })}
select
  p.as_of,
  ${touched.map((measure) => `${answeredStanding(measure)} as ${measure.column}`).join(",\n  ")},
  sum(p.people) as people
from alike as p
group by ${["p.as_of", ...columns].join(", ")}`
}

/** The table that the select above makes, to be counted. */
export const triedTally: Counted = {
  from: "tried_tally",
  people: (condition) => `cast(coalesce(sum(s.people) filter (where ${condition}), 0) as integer)`,
}

/** The select that counts, of the touched measures with a deciding fact, the standings of those whose fact is dated in the month. */
export function triedInMonthSql({ touched, isAsked }: Tried): string {
  const dated = touched.filter(({ fact }) => fact !== null)
  const questions = dated.flatMap((measure) => [...questionsOf(measure), ...datedOf(measure)])
  if (dated.length === 0) return ""
  return `with ${alikeSql({ isAsked, questions })}
${dated.map(inMonthOf).join("\nunion all\n")}`
}

/**
 * The select that names, for each touched measure, who would stand elsewhere on one day under the settings that are tried, and
 * where they stand now: both are told of the same facts.
 */
export function triedMovesSql({ touched, isAsked }: Tried): string {
  const questions = touched.flatMap(questionsOf)
  const kept = answerColumns({ questions, isAsked: () => false })
  const tried = answerColumns({ questions, isAsked })
  return `with answered as (
  select
    p.patient_id,
    ${kept.map(({ name, sql }) => `${sql} as kept_${name}`).join(",\n    ")},
    ${tried.map(named).join(",\n    ")}
  from tried_targets as p
  where p.as_of = cast($as_of as date)
),
standing as (
  select
    p.patient_id,
    ${touched.flatMap(nowAndThen).join(",\n    ")}
  from answered as p
  where ${tried.map(({ name }) => `p.kept_${name} <> p.${name}`).join(" or ")}
)
${touched.map(movesOf).join("\nunion all\n")}`
}

/**
 * The same, told of the standings themselves, where those of the snapshot are hidden. Where they stand now is by what is known
 * today, of a closed month too, so that no fact that came later counts as a move. Whoever is not in the panel is outside.
 */
export function standingsMovedSql(list: readonly Measure[]): string {
  const columns = list.map(({ column }) => `s.${column}`).join(", ")
  return `with tried as (
  select s.patient_id, ${columns} from patient_standings as s where s.as_of = cast($as_of as date)
),
today as (
  select s.patient_id, ${columns} from snapshot.main.patient_standings as s
  where s.as_of = cast($as_of as date) and s.as_of not in (select c.as_of from snapshot.main.closed_months as c)
  union all
  select s.patient_id, ${columns} from snapshot.main.patient_standings_today as s
  where s.as_of = cast($as_of as date)
),
standing as (
  select
    coalesce(tried.patient_id, today.patient_id) as patient_id,
    ${list
      .map(
        ({ column }) => `coalesce(today.${column}, 'outside') as kept_${column},
    coalesce(tried.${column}, 'outside') as ${column}`,
      )
      .join(",\n    ")}
  from tried
  full outer join today on today.patient_id = tried.patient_id
)
${list.map(movesOf).join("\nunion all\n")}`
}

function nowAndThen(measure: Measure): string[] {
  return [
    `${answeredStanding(measure, "kept_")} as kept_${measure.column}`,
    `${answeredStanding(measure)} as ${measure.column}`,
  ]
}

function movesOf({ id, column }: Measure): string {
  return `select '${id}' as measure_id, s.patient_id, s.kept_${column} as "now", s.${column} as "then"
from standing as s
where s.kept_${column} <> s.${column}`
}

function named({ name, sql }: { name: string; sql: string }): string {
  return `${sql} as ${name}`
}

function alikeSql(options: { questions: readonly string[]; isAsked: Tried["isAsked"] }): string {
  const answers = answerColumns(options)
  return `alike as (
  select p.as_of, ${answers.map(named).join(",\n    ")}, count(*) as people
  from tried_targets as p
  group by ${[1, ...answers.map((_, place) => place + 2)].join(", ")}
)`
}

function inMonthOf(measure: Measure): string {
  const isDated = datedOf(measure)
    .map((question) => isYes(question))
    .join(" and ")
  const count = (standing: string) =>
    `cast(coalesce(sum(p.people) filter (where ${isDated} and ${answeredStanding(measure)} = '${standing}'), 0) as integer)`
  return `select '${measure.id}' as measure_id, p.as_of, ${count("met")} as met, ${count("not met")} as not_met,
  ${count("unknown")} as unknown
from alike as p
group by p.as_of`
}
