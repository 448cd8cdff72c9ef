import "server-only"
import type { OutreachCase } from "../domain/outreach-case"
import { lifeColumns } from "./case-rows"
import type { PrismaClient } from "./generated/client"
import type { CaseLine, LineExtra } from "./outreach-cases"

/** What an invented person did with a case, as the rules of its life allow it: the lines, and the case after them. */
export type InventedWork = {
  id: number
  patientId: string
  after: OutreachCase
  lines: readonly (CaseLine & LineExtra)[]
}

/** Empties the cases of a clinic in which nobody has worked on one; false where somebody has. */
export async function clearUntouchedCases(client: PrismaClient): Promise<boolean> {
  return client.$transaction(async (transaction) => {
    if ((await transaction.outreachEvent.count({ where: { byId: { not: null } } })) > 0) return false
    await transaction.outreachEvent.deleteMany()
    await transaction.outreachCaseReason.deleteMany()
    await transaction.outreachCase.deleteMany()
    return true
  })
}

/**
 * Writes such work at once. No entry of the audit log is made of it, since nobody was shown or changed: the people, the
 * coordinator and the calls are all invented.
 */
export async function writeInventedWork(
  client: PrismaClient,
  { works, by }: { works: readonly InventedWork[]; by: { id: string; name: string } },
): Promise<void> {
  const lives = works.map((work) => ({
    ...{ id: work.id, versions: work.lines.length, ...lifeColumns({ case: work.after }) },
    acknowledged_on: work.lines.findLast((line) => line.kind === "acknowledge")?.on ?? null,
  }))
  const told = works
    .flatMap(({ lines: own, ...work }) => own.map((line) => ({ ...work, line })))
    .toSorted((one, other) => (one.line.on < other.line.on ? -1 : one.line.on > other.line.on ? 1 : 0))
  const lines = told.map(({ id, patientId, after, line }, place) => ({
    ...{ case_id: id, patient_id: patientId, round: after.round, kind: line.kind, on_day: line.on },
    ...{ from: line.from, to: line.to, why: line.why, channel: line.channel, outcome: line.outcome },
    ...{ until: line.until, note: line.note, assigned_to: line.assignedTo, place },
  }))
  await client.$transaction(async (transaction) => {
    await transaction.$executeRaw`
      update outreach_cases as c set
        state = l.state, assigned_to = l.assigned_to, acknowledged_by = l.acknowledged_by,
        acknowledged_at = coalesce(l.acknowledged_on + interval '10 hours', c.acknowledged_at), snoozed_until = l.snoozed_until, again_on = l.again_on,
        closed_on = l.closed_on, close_reason = l.close_reason, held_for = l.held_for, held_urgent = l.held_urgent,
        closed_at = l.closed_on + interval '10 hours', closed_by = case when l.closed_on is not null then ${by.name} end,
        version = c.version + l.versions
      from jsonb_to_recordset(${JSON.stringify(lives)}::jsonb) as l (
        id int, versions int, state text, assigned_to uuid, acknowledged_by uuid, acknowledged_on date, snoozed_until date, again_on date, closed_on date,
        close_reason text, held_for text[], held_urgent text[])
      where c.id = l.id`
    await transaction.$executeRaw`
      insert into outreach_events (case_id, patient_id, kind, on_day, at, by_id, by_name, from_state, to_state, round, why,
        channel, outcome, until_on, assigned_to, note)
      select l.case_id, l.patient_id, l.kind, l.on_day, l.on_day + interval '10 hours', ${by.id}::uuid, ${by.name}, l."from",
        l."to", l.round, l.why, l.channel, l.outcome, l.until, l.assigned_to, l.note
      from jsonb_to_recordset(${JSON.stringify(lines)}::jsonb) as l (
        case_id int, patient_id text, round int, kind text, on_day date, "from" text, "to" text, why text, channel text,
        outcome text, until date, note text, assigned_to uuid, place int)
      order by l.place`
  })
}
