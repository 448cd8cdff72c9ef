import { z } from "zod"
import { inventedAcknowledgement, inventedActs, type InventedAct } from "../../seed/outreach-calls"
import { wholeClinic } from "../access/scope"
import { daysAfter } from "../domain/day-sums"
import type { OutreachCase } from "../domain/outreach-case"
import { plainToday } from "../domain/plain-date"
import { askOn, onSnapshot } from "../engine/run"
import { reconcileCases } from "../jobs/reconcile-cases"
import { next } from "../outreach/case-life"
import { isUnseenUrgent } from "../outreach/case-standing"
import { casesByPatient } from "../store/case-list"
import type { PrismaClient } from "../store/generated/client"
import { isDemoOnly } from "../store/demo-personas"
import { readSettings } from "../store/settings"
import type { LineExtra } from "../store/outreach-cases"
import { clearUntouchedCases, writeInventedWork, type InventedWork } from "../store/invented-work"

const monthsTold = 5

const earlierMonths = {
  sql: `select d.as_of, m.time_zone from as_of_dates as d cross join snapshot_meta as m where not d.is_running order by d.as_of desc limit ${monthsTold}`,
  Row: z.object({ as_of: z.string(), time_zone: z.string() }),
}

type Place = { client: PrismaClient; dataDir: string; now: Date }

/**
 * Gives the demo clinic some months of outreach: a look at the end of each month as its figures were, and what its invented
 * coordinator did until the next, within the rules of a case's life. Nothing happens in any other clinic.
 */
export async function tellDemoOutreach(place: Place): Promise<void> {
  const { client, dataDir, now } = place
  const by = await client.user.findFirst({ where: { isDemo: true, roles: { has: "care-coordinator" } } })
  if (by === null || !(await isDemoOnly(client)) || !(await clearUntouchedCases(client))) return
  const months = await onSnapshot({ dataDir, scope: wholeClinic }, (connection) =>
    askOn(connection, earlierMonths),
  )
  const days = months.map((month) => month.as_of).toReversed()
  const today = plainToday(now, months[0]?.time_zone ?? "UTC")
  const settings = await readSettings(client)
  for (const [at, day] of days.entries()) {
    await reconcileCases({ client, dataDir, now: new Date(`${day}T18:00:00Z`), past: { day, settings } })
    const works = await worksBetween(client, { by: by.id, after: day, before: days[at + 1] ?? today })
    await writeInventedWork(client, { works, by })
  }
  await reconcileCases({ client, dataDir, now })
}

async function worksBetween(
  client: PrismaClient,
  of: { by: string; after: string; before: string },
): Promise<InventedWork[]> {
  const numbers = await client.outreachCase.findMany({
    select: { id: true, patientId: true, clinician: true },
  })
  const cases = await casesByPatient(client, wholeClinic)
  return numbers.flatMap(({ id, patientId, clinician }) => {
    const before = cases.get(patientId)
    if (!before || before.state !== "open" || before.keptFrom !== null) return []
    const isWaiting = before.againOn !== null && before.againOn > daysAfter(of.after, 1)
    if (isWaiting && !isUnseenUrgent(before)) return []
    const work = workOn(before, { ...of, id, clinician })
    return work.lines.length === 0 ? [] : [{ id, patientId, ...work }]
  })
}

function workOn(
  before: OutreachCase,
  of: { id: number; clinician: string | null; by: string; after: string; before: string },
) {
  const lines: InventedWork["lines"][number][] = []
  let after = before
  const asked = { caseId: of.id, after: of.after, before: of.before }
  for (const act of isUnseenUrgent(before) ? inventedAcknowledgement(asked) : inventedActs(asked)) {
    const verdict = next(after, { ...act, by: of.by })
    if (!verdict.ok || verdict.line === null) break
    after = verdict.case
    lines.push({ ...verdict.line, ...saidOf(act, of.clinician) })
  }
  return { after, lines }
}

/** What a line says beside the act: of something urgent, which clinician was told. */
function saidOf(act: InventedAct, clinician: string | null): LineExtra {
  if (act.kind === "attempt") return { channel: act.channel, outcome: act.outcome, until: act.againOn }
  if (act.kind === "acknowledge") return { note: clinician ?? "The nephrologist on call" }
  return { until: act.kind === "snooze" ? act.until : null }
}
