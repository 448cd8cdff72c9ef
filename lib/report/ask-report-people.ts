import { monthPeople, type MonthPerson } from "../questions/month-people"
import { monthStandings, type MonthStanding } from "../questions/month-standings"
import type { Ask } from "./ask-month-report"

/** Who stands behind the figures of a month, by name. */
export type ReportPeople = { people: MonthPerson[]; standings: MonthStanding[] }

export async function askReportPeople(ask: Ask, asOf: string): Promise<ReportPeople> {
  const [people, standings] = await Promise.all([
    ask(monthPeople, { as_of: asOf }),
    ask(monthStandings, { as_of: asOf }),
  ])
  return { people, standings }
}
