import "server-only"
import type { DuckDBConnection } from "@duckdb/node-api"
import { ClosedFigures } from "../domain/closed-figures"
import { askOn } from "./run"

const shapes = ClosedFigures.shape

const measuresOfDay = {
  sql: `select m.measure_id, m.population, m.excluded, m.unknown, m.met, m.exception, m.not_met
from measure_months as m where m.as_of = cast($as_of as date) order by m.measure_id`,
  Row: shapes.measures.element,
}

const inMonthOfDay = {
  sql: `select m.measure_id, m.met, m.not_met, m.unknown
from measure_in_month as m where m.as_of = cast($as_of as date) order by m.measure_id`,
  Row: shapes.inMonth.element,
}

const dietOfDay = {
  sql: `select d.series, d.n, d.mean_mg, d.sd_mg, d.paired_n, d.paired_change_mg, d.paired_sd_mg
from diet_months as d where d.as_of = cast($as_of as date) order by d.series`,
  Row: shapes.diet.element,
}

/** Every count and mean of one month-end, as a closing keeps them. */
export async function askFigures(connection: DuckDBConnection, asOf: string): Promise<ClosedFigures> {
  const day = { as_of: asOf }
  return {
    measures: await askOn(connection, measuresOfDay, day),
    inMonth: await askOn(connection, inMonthOfDay, day),
    diet: await askOn(connection, dietOfDay, day),
  }
}
