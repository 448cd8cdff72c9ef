import "server-only"
import { measures } from "../measures/index"
import { countsSql, eachPerson } from "../measures/standing-sql"
import { inMonthSql } from "../measures/in-month-sql"
import { clinicalViews } from "./views"

/**
 * The tables by person and day in which the rows of a closed month are those known when it was closed. What today's facts
 * and settings would make of the month stands beside them in tables of the same name and `_today`.
 */
export const closedByPerson = ["patient_values", "patient_diet_months"] as const

/** The standings follow the values, and hide themselves where other settings are tried. */
export const closedTables = [...closedByPerson, "patient_standings"] as const

/** The tables counted from those, each with the select that counts it. */
export function countedTables(): ReadonlyMap<string, string> {
  return new Map([
    ["measure_months", countsSql(measures)],
    ["measure_in_month", inMonthSql(measures)],
    ["diet_months", dietMonthsSql()],
  ])
}

/** The same counts over the people as they stand today. */
export function countedTodayTables(): ReadonlyMap<string, string> {
  return new Map([
    ["measure_months_today", countsSql(measures, eachPerson("patient_standings_today"))],
    ["measure_in_month_today", inMonthSql(measures, "_today")],
    ["diet_months_today", dietMonthsSql().replaceAll("patient_diet_months", "patient_diet_months_today")],
  ])
}

function dietMonthsSql(): string {
  const view = clinicalViews().find((one) => one.name === "diet_months")
  if (!view) throw new Error("there is no view diet_months")
  return view.sql
}
