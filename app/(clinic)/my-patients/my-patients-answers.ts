import "server-only"
import type { Caller } from "../../../lib/access/caller"
import { plainToday } from "../../../lib/domain/plain-date"
import { clinicianPanels, type ClinicianPanel } from "../../../lib/questions/clinician-panels"
import { ownChangeCounts } from "../../../lib/questions/own-change-counts"
import { ownChanges } from "../../../lib/questions/own-changes"
import { ownCounts } from "../../../lib/questions/own-counts"
import { ownUrgent } from "../../../lib/questions/own-urgent"
import { ownVisits } from "../../../lib/questions/own-visits"
import { casesOfPeople } from "../../../lib/store/case-list"
import { store } from "../../../lib/store/client"
import { ask, callerScope } from "../../_http/ask"
import type { ChosenMonth } from "../months"
import { rowsOfPage } from "../search-params"
import { clinicTimeZone } from "../time-zone"
import type { MyPatientsView } from "./search-params"

/** People on one page of what changed. */
export const pageSize = 40

/** Visits that are told at most. */
export const mostVisits = 150

/** Whose patients are shown, and whether that is the person who asks; null where a clinician has to be chosen first. */
export type Whose = { panel: ClinicianPanel; isOwn: boolean } | null

export type MyPatientsAnswers = Awaited<ReturnType<typeof myPatientsAnswers>>

/** The clinicians with people whom the person may see, and whose are shown. */
export async function whoseAnswers(options: { caller: Caller; view: MyPatientsView; chosen: ChosenMonth }) {
  const { caller, view, chosen } = options
  const panels = await ask(clinicianPanels, { as_of: chosen.asOf, clinician: null })
  const id = view.clinician ?? caller.staffId
  const panel = panels.find((one) => one.clinician_id === id)
  const whose: Whose = panel ? { panel, isOwn: panel.clinician_id === caller.staffId } : null
  return { panels, whose }
}

/** How many, the visits of the next two weeks with what is on the list of reasons, and what changed since the month before. */
export async function myPatientsAnswers(options: {
  clinician: string
  view: MyPatientsView
  chosen: ChosenMonth
  now: Date
}) {
  const { clinician, view, chosen, now } = options
  const days = { as_of: chosen.asOf, earlier_as_of: chosen.earlierAsOf ?? chosen.asOf }
  const today = plainToday(now, await clinicTimeZone())
  const page = rowsOfPage(view.page, pageSize)
  const [counts, urgent, visits, changeCounts, changes] = await Promise.all([
    ask(ownCounts, { as_of: chosen.asOf, clinician }),
    ask(ownUrgent, { as_of: chosen.asOf, clinician }),
    chosen.isRunning ? ask(ownVisits, { as_of: chosen.asOf, today, clinician, limit: mostVisits }) : [],
    ask(ownChangeCounts, { ...days, clinician }),
    ask(ownChanges, { ...days, clinician, detail: view.change, ...page }),
  ])
  const publicIds = [...new Set(visits.map((visit) => visit.public_id))]
  const cases = await casesOfPeople(store(), { scope: await callerScope(), publicIds })
  return { today, counts: counts[0], urgent, visits, cases, changeCounts: changeCounts[0], changes }
}
