import "server-only"
import { z } from "zod"
import type { Scope } from "../access/scope"
import { HeldReason } from "../domain/outreach-case"
import { lastLine, type KeptAct } from "./case-last-line"
import { listedColumns, listedOf, type ListedCase } from "./case-list"
import type { Prisma, PrismaClient } from "./generated/client"
import { inScope } from "./in-scope"

const text = z.string().nullable()

const Entry = z.object({
  id: z.string(),
  kind: z.string(),
  onDay: z.string(),
  at: z.date(),
  byId: text,
  byName: z.string(),
  why: text,
  channel: text,
  outcome: text,
  untilOn: text,
  assignedTo: text,
  note: text,
  began: z.array(HeldReason),
  ended: z.array(HeldReason),
  isTakenBack: z.boolean(),
})

/** A line of history as it is read; `byId` is null where the data did it, `assignedTo` is a name. */
export type CaseEntry = z.infer<typeof Entry>

const Beside = z.array(z.object({ is_booked_soon: z.boolean(), closed_by: text }))
const Since = z.array(z.object({ reason: z.string(), began_on: z.string() }))

/** A case with its whole history, latest line first, and the day since which each of its reasons holds. */
export type PersonsCase = {
  one: ListedCase
  isBookedSoon: boolean
  closedBy: string | null
  since: ReadonlyMap<string, string>
  history: readonly CaseEntry[]
  /** The latest line with the case before and after it, where a person did it. */
  lastAct: KeptAct | null
}

/** The case of the person with an opaque id; null where there is none in scope. */
export function caseOfPerson(
  client: PrismaClient,
  { scope, publicId }: { scope: Scope; publicId: string },
): Promise<PersonsCase | null> {
  return inScope(client, scope, async (transaction) => {
    const rows = await transaction.$queryRaw`
      select ${listedColumns}, c.is_booked_soon, c.closed_by
      from outreach_cases as c join patients as p on p.patient_id = c.patient_id
      where p.public_id = ${publicId}::uuid`
    const [one] = listedOf(rows)
    const [beside] = Beside.parse(rows)
    if (!one || !beside) return null
    const since = Since.parse(
      await transaction.$queryRaw`
        select r.reason, r.began_on::text as began_on
        from outreach_case_reasons as r where r.case_id = ${one.id}::int and r.ended_on is null`,
    )
    return {
      ...{ one, isBookedSoon: beside.is_booked_soon, closedBy: beside.closed_by },
      since: new Map(since.map((held) => [held.reason, held.began_on])),
      history: await historyOf(transaction, one.id),
      lastAct: (await lastLine(transaction, one.id))?.act ?? null,
    }
  })
}

async function historyOf(transaction: Prisma.TransactionClient, caseId: number): Promise<CaseEntry[]> {
  return z.array(Entry).parse(
    await transaction.$queryRaw`
      select e.id::text as id, e.kind, e.on_day::text as "onDay", e.at, e.by_id::text as "byId", e.by_name as "byName",
        e.why, e.channel, e.outcome, e.until_on::text as "untilOn", e.note, e.began, e.ended,
        (select u.name from users as u where u.id = e.assigned_to) as "assignedTo",
        exists (select from outreach_events as u where u.undoes_id = e.id) as "isTakenBack"
      from outreach_events as e
      where e.case_id = ${caseId}::int
      order by e.id desc`,
  )
}
