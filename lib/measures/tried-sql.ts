import { answerColumns, answeredStanding, datedOf, isYes, questionsOf } from "./answers"
import { measures } from "./index"
import type { Measure } from "./types"

/**
 * The select of what settings are tried on: everyone who is in the panel on an as-of date, or would be with a wider window, as
 * today's facts show them, with the
 * answers to whatever measures ask, and the few values from which an answer is found anew under another target, window or
 * limit.
 */
export function triedRowsSql(): string {
  const questions = measures.flatMap((measure) => [...questionsOf(measure), ...datedOf(measure)])
  return `select
  p.patient_id,
  p.as_of,
  p.in_panel,
  p.in_panel as was_in_panel,
  days.last_visit_on,
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
  p.sodium_in_year_mg,
  sodium.sodium_days,
  sodium.sodium_means,
  cast(kidney.egfr as smallint) as last_egfr,
  kidney.egfr_on as last_egfr_on,
  kidney.is_egfr_chronic as is_last_egfr_chronic,
  risk.failure_risk_2_years as last_failure_risk_2_years,
  p.a,
  kidney.a_kdigo as last_a_kdigo,
  kidney.a_ada as last_a_ada,
  kidney.urine_on as last_urine_on,
  kidney.albuminuria as last_albuminuria,
  kidney.acr_on as last_acr_on,
  coalesce(reaches(kidney.acr, kidney.acr_comparator, 200), false) as is_last_acr_200,
  coalesce(conditions.has_ckd_code, false) or p.on_dialysis or p.transplant as has_ckd_on_record,
  p.has_ckd_5_code,
  p.hypertension,
  p.diabetes,
  p.heart_failure,
  cast(p.egfr_days_in_year as smallint) as egfr_days_in_year,
  p.is_urine_tested_in_year
from patient_month as p
join as_of_windows as w on w.as_of = p.as_of
join patient_days as days on days.patient_id = p.patient_id and days.as_of = p.as_of
join latest_kidney_at as kidney on kidney.patient_id = p.patient_id and kidney.as_of = p.as_of
left join sodium_means as sodium on sodium.patient_id = p.patient_id and sodium.as_of = p.as_of
left join failure_risk_at as risk on risk.patient_id = p.patient_id and risk.as_of = p.as_of
left join conditions_at as conditions on conditions.patient_id = p.patient_id and conditions.as_of = p.as_of
left join pressure_on as latest on latest.patient_id = p.patient_id and latest.day = p.as_of
left join pressure_on as earlier on earlier.patient_id = p.patient_id and earlier.day = w.quarter_after
where p.in_panel or (p.panel_reason = 'no visit' and days.last_visit_on is not null)
order by p.as_of, p.patient_id`
}

type Tried = {
  touched: readonly Measure[]
  isAsked: (question: string) => boolean
  /** A condition over a row `p` of `tried_targets` without which no answer is another one. */
  mayDiffer: string
}

/**
 * The select that counts, on every as-of date, the people whose answers would be others, those together who answer alike now and
 * then; so a standing is told of some thousands and not of half a million, and of nobody who stays.
 */
export function triedAlikeSql(tried: Tried): string {
  const questions = tried.touched.flatMap((measure) => [...questionsOf(measure), ...datedOf(measure)])
  return `with ${answeredSql({ ...tried, questions, of: "p.as_of" })}
select p.*, count(*) as people
from answered as p
where ${differSql(questions)}
group by all`
}

/**
 * The select that counts, for each touched measure and day, who would go from one standing to another, apart for those whose
 * deciding fact is dated in the month.
 */
export function triedChangesSql({ touched }: Pick<Tried, "touched">): string {
  return `with told as (
  select p.as_of, p.people, unnest([${touched.map(toldOf).join(", ")}]) as one
  from tried_alike as p
)
select
  one.measure_id,
  p.as_of,
  one."now",
  one."then",
  one.was_in_month,
  one.is_in_month,
  sum(p.people) as people
from told as p
where one."now" <> one."then" or one.was_in_month <> one.is_in_month
group by all`
}

/** The select of the counts of every measure and month: those of today, with who would come and without who would go. */
export function triedCountsSql(today: string): string {
  const inPopulation = { name: "population", ...{ was: `s."now" <> 'outside'`, is: `s."then" <> 'outside'` } }
  const standings = ["excluded", "unknown", "met", "exception", "not met"].map(countedIn)
  return changedSql(today, [inPopulation, ...standings])
}

/** The same for the standings of those whose deciding fact is dated in the month. */
export function triedInMonthSql(today: string): string {
  const dated = ["met", "not met", "unknown"].map(countedIn).map(({ name, was, is }) => ({
    name,
    was: `s.was_in_month and ${was}`,
    is: `s.is_in_month and ${is}`,
  }))
  return changedSql(today, dated)
}

/**
 * The select that names, for each touched measure, who would stand elsewhere on one day under the settings that are tried, and
 * where they stand now: both are told of the same facts.
 */
export function triedMovesSql(tried: Tried): string {
  const { touched } = tried
  const questions = touched.flatMap(questionsOf)
  const onDay = `(${tried.mayDiffer}) and p.as_of = cast($as_of as date)`
  return `with ${answeredSql({ ...tried, questions, of: "p.patient_id", mayDiffer: onDay })},
standing as (
  select
    p.patient_id,
    ${touched.flatMap(nowAndThen).join(",\n    ")}
  from answered as p
  where ${differSql(questions)}
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
    `${standingNow(measure)} as kept_${measure.column}`,
    `${standingThen(measure)} as ${measure.column}`,
  ]
}

/** Whoever is not in the panel is outside of every measure. */
function standingNow(measure: Measure): string {
  return `case when p.was_in_panel then ${answeredStanding(measure, "kept_")} else 'outside' end`
}

function standingThen(measure: Measure): string {
  return `case when p.in_panel then ${answeredStanding(measure)} else 'outside' end`
}

function movesOf({ id, column }: Measure): string {
  return `select '${id}' as measure_id, s.patient_id, s.kept_${column} as "now", s.${column} as "then"
from standing as s
where s.kept_${column} <> s.${column}`
}

function named({ name, sql }: { name: string; sql: string }): string {
  return `${sql} as ${name}`
}

/** The answers to some questions as stored and as they would be. */
function answeredSql(options: Omit<Tried, "touched"> & { questions: readonly string[]; of: string }): string {
  const { questions, isAsked } = options
  const kept = answerColumns({ questions, isAsked: () => false })
  const tried = answerColumns({ questions, isAsked })
  return `answered as (
  select
    ${options.of},
    p.was_in_panel,
    p.in_panel,
    ${kept.map(({ name, sql }) => `${sql} as kept_${name}`).join(",\n    ")},
    ${tried.map(named).join(",\n    ")}
  from tried_targets as p
  where (p.was_in_panel or p.in_panel) and (${options.mayDiffer})
)`
}

function differSql(questions: readonly string[]): string {
  const columns = answerColumns({ questions, isAsked: () => false })
  return ["p.was_in_panel <> p.in_panel", ...columns.map(({ name }) => `p.kept_${name} <> p.${name}`)].join(
    " or ",
  )
}

// Lists are a construct of this engine: so one pass tells of all measures.
function toldOf(measure: Measure): string {
  return `{
    'measure_id': '${measure.id}',
    'now': ${standingNow(measure)},
    'then': ${standingThen(measure)},
    'was_in_month': ${isDated(measure, "kept_")},
    'is_in_month': ${isDated(measure, "")}
  }`
}

function isDated(measure: Measure, prefix: string): string {
  const questions = datedOf(measure)
  return questions.length === 0 ? "false" : questions.map((question) => isYes(question, prefix)).join(" and ")
}

/** A number of people, and who was or would be among them. */
type Count = { name: string; was: string; is: string }

function countedIn(standing: string): Count {
  return {
    name: standing.replace(" ", "_"),
    was: `s."now" = '${standing}'`,
    is: `s."then" = '${standing}'`,
  }
}

function changedSql(today: string, counts: readonly Count[]): string {
  const people = (condition: string) => `coalesce(sum(s.people) filter (where ${condition}), 0)`
  return `with changes as (
  select
    s.measure_id,
    s.as_of,
    ${counts.map(({ name, was, is }) => `${people(is)} - ${people(was)} as ${name}`).join(",\n    ")}
  from tried_changes as s
  group by s.measure_id, s.as_of
)
select
  m.measure_id,
  d.as_of,
  ${counts.map(({ name }) => `cast(coalesce(t.${name}, 0) + coalesce(c.${name}, 0) as integer) as ${name}`).join(",\n  ")}
from tried_days as d
cross join (select distinct t.measure_id from (${today}) as t) as m
left join (${today}) as t on t.measure_id = m.measure_id and t.as_of = d.as_of
left join changes as c on c.measure_id = m.measure_id and c.as_of = d.as_of`
}
