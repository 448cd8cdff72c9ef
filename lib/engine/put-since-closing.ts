import "server-only"
import type { DuckDBConnection } from "@duckdb/node-api"
import type { ClosedMonth } from "../domain/closed-month"
import { measures } from "../measures/index"
import type { Measure } from "../measures/types"
import { computeAsSet } from "./compute"
import { loadMappings } from "./load"
import { settingsSql } from "./settings-table"

/** What is set beside the facts: the settings, and what persons said drug texts mean. */
type SetThings = Pick<ClosedMonth, "settings" | "mappings">

/**
 * Keeps of the closed months who stands elsewhere today on a measure, and whether today's facts alone would place them
 * elsewhere (by the settings and meanings of drug texts the month was closed with): what tells a fact that came or was
 * corrected later from something that was set otherwise. Months closed alike are computed together; where nothing was set
 * since, today's standings are those.
 */
export async function putSinceClosing(
  connection: DuckDBConnection,
  { closed, today }: { closed: readonly ClosedMonth[]; today: SetThings },
): Promise<void> {
  await connection.run(
    `create or replace temp table standings_as_set as
     select s.* from patient_standings_today as s where false`,
  )
  const setToday = wordsOf(today)
  const sets = new Map(closed.map((month) => [wordsOf(month), month] as const))
  for (const [words, first] of sets) {
    const days = closed.filter((month) => wordsOf(month) === words).map((month) => month.asOf)
    await (words === setToday
      ? copyToday(connection, days)
      : computeAlike(connection, { days, set: first, today }))
  }
  await connection.run(
    `create or replace table standings_since_closing as ${measures.map(elsewhereSql).join("\nunion all\n")}`,
  )
  await connection.run("drop table standings_as_set")
}

function elsewhereSql({ id, column }: Measure): string {
  return `
select
  coalesce(known.patient_id, today.patient_id) as patient_id, coalesce(known.as_of, today.as_of) as as_of,
  '${id}' as measure_id, known.${column} as standing_known, today.${column} as standing_today,
  coalesce(known.${column}, 'outside') <> coalesce(as_set.${column}, 'outside') as is_late
from (select s.* from patient_standings as s where s.as_of in (select c.as_of from closed_months as c)) as known
full join patient_standings_today as today on today.patient_id = known.patient_id and today.as_of = known.as_of
left join standings_as_set as as_set
  on as_set.patient_id = coalesce(known.patient_id, today.patient_id)
  and as_set.as_of = coalesce(known.as_of, today.as_of)
where coalesce(known.${column}, 'outside') <> coalesce(today.${column}, 'outside')`
}

async function copyToday(connection: DuckDBConnection, days: readonly string[]): Promise<void> {
  for (const day of days)
    await connection.run(
      `insert into standings_as_set by name
       select s.* from patient_standings_today as s where s.as_of = cast($as_of as date)`,
      { as_of: day },
    )
}

async function computeAlike(
  connection: DuckDBConnection,
  { days, set, today }: { days: readonly string[]; set: SetThings; today: SetThings },
): Promise<void> {
  const places = days.map((_, place) => `cast($day${place} as date)`)
  await connection.run(
    `create temp table as_of_dates as
     select d.as_of, d.month, d.is_running from as_of_dates as d where d.as_of in (${places.join(", ")})`,
    Object.fromEntries(days.map((day, place) => [`day${place}`, day])),
  )
  const isOtherMeaning = meaningsOf(set) !== meaningsOf(today)
  if (isOtherMeaning) await loadMappings(connection, set.mappings, "temp table")
  await computeAsSet(connection, {
    settings: set.settings,
    roots: ["as_of_dates", "settings", ...(isOtherMeaning ? ["drug_name_mappings"] : [])],
    into: "standings_as_set",
  })
  await connection.run("drop table temp.main.as_of_dates")
  if (isOtherMeaning) await connection.run("drop table temp.main.drug_name_mappings")
}

function wordsOf(set: SetThings): string {
  return `${settingsSql(set.settings)} ${meaningsOf(set)}`
}

function meaningsOf({ mappings }: SetThings): string {
  const byText = mappings.toSorted((a, b) => (a.text < b.text ? -1 : 1))
  return JSON.stringify(byText.map(({ text, ingredients, isIgnored }) => [text, ingredients, isIgnored]))
}
