import "server-only"
import { plainToday } from "../../../../lib/domain/plain-date"
import { bookedVisits } from "../../../../lib/questions/booked-visits"
import { visitDays } from "../../../../lib/questions/visit-days"
import { casesOfPeople } from "../../../../lib/store/case-list"
import { store } from "../../../../lib/store/client"
import { ask, callerScope } from "../../../_http/ask"
import { clinicTimeZone } from "../../time-zone"
import type { VisitsView } from "./search-params"
import { visitSheets } from "./visit-sheets"

export type VisitsAnswers = Awaited<ReturnType<typeof visitsAnswers>>

/** The visits of the day that is asked for, or of the first from today on that has any; `sheets` are those that are shown. */
export async function visitsAnswers({ view, now }: { view: VisitsView; now: Date }) {
  const today = plainToday(now, await clinicTimeZone())
  const days = await ask(visitDays, { today })
  const on = view.on ?? days[0]?.on_day ?? today
  const visits = await ask(bookedVisits, { on, today })
  const publicIds = [...new Set(visits.map((visit) => visit.public_id))]
  const cases = await casesOfPeople(store(), { scope: await callerScope(), publicIds })
  const ofDay = visitSheets(visits, cases)
  const sheets = ofDay.filter((sheet) => view.clinician === null || sheet.id === view.clinician)
  return { today, days, on, ofDay, sheets }
}
