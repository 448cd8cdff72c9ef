import "server-only"
import { z } from "zod"
import type { Scope } from "../access/scope"
import { inForce, isLetterDue } from "./case-attempts"
import { partCondition } from "./case-filters"
import { listedColumns, listedOf, type ListedCase } from "./case-list"
import { Prisma, type PrismaClient } from "./generated/client"
import { inScope } from "./in-scope"

/** For whom a letter is next on a day, by the clinic's rule; `ids` are the cases it is asked of, all where they are left out. */
export type LettersAsked = {
  scope: Scope
  on: string
  rule: { attempts: number; channels: number }
  ids?: readonly number[]
}

/**
 * A letter is next for whoever is to be contacted on the day and has been tried as often as the rule says, or has
 * letters as the preferred way and none in this round. Nobody who is urgent, kept from contact, snoozed, waited for or
 * closed, or who has a visit soon; a condition over `outreach_cases` as `c`.
 */
function isNext({ on, rule, ids }: LettersAsked): Prisma.Sql {
  const chosen = ids === undefined ? Prisma.empty : Prisma.sql`and c.id = any (${[...ids]}::int[])`
  return Prisma.sql`${partCondition({ which: "to contact", on })} and c.place is not null ${chosen}
    and (${isLetterDue(rule)} or (
      exists (select from patient_records as r
        where r.patient_id = c.patient_id and r.ended_at is null and r.preferred_contact = 'letter')
      and not exists (select from outreach_events as e
        where e.case_id = c.id and e.kind = 'attempt' and e.round = c.round and e.channel = 'letter' and ${inForce})))`
}

/** A page of the cases for which a letter is next, in their order, after a place. */
export async function listDueLetters(
  client: PrismaClient,
  asked: LettersAsked & { after: number; limit: number },
): Promise<ListedCase[]> {
  const { after, limit } = asked
  const rows = await inScope(
    client,
    asked.scope,
    (transaction) => transaction.$queryRaw`
      with page as (
        select c.* from outreach_cases as c
        where ${isNext(asked)} and c.place > ${after}::int order by c.place limit ${limit}::int
      )
      select ${listedColumns}
      from page as c join patients as p on p.patient_id = c.patient_id
      order by c.place`,
  )
  return listedOf(rows)
}

const Counts = z.array(z.object({ total: z.number(), before: z.number() }))

/** For how many a letter is next, and how many of them stand up to a place. */
export async function countDueLetters(
  client: PrismaClient,
  asked: LettersAsked & { after: number },
): Promise<{ total: number; before: number }> {
  const rows = await inScope(
    client,
    asked.scope,
    (transaction) => transaction.$queryRaw`
      select count(*)::int as total, count(*) filter (where c.place <= ${asked.after}::int)::int as before
      from outreach_cases as c where ${isNext(asked)}`,
  )
  const [counts] = Counts.parse(rows)
  if (!counts) throw new Error("a count has one row")
  return counts
}
