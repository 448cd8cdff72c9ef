import "server-only"
import { z } from "zod"
import type { Prisma } from "./generated/client"
import { type PrismaClient } from "./generated/client"

/** How attempts of one scope are slowed: so many are free, each further one doubles the wait; old ones are forgotten. */
export type Slowing = {
  scope: string
  free: number
  mostWaitMs: number
  /** From so many in a row on nothing is tried at all. */
  ceiling: number
  forgetAfterMs: number
}

// Attempts made all at once queue for their scopes; each is to be counted, not to fail because those before it took long.
const queueing = { maxWait: 20_000, timeout: 20_000 }

const Row = z.object({ scope: z.string(), count: z.number(), lastAt: z.date(), waitUntil: z.date() })

/**
 * Counts one attempt in all its scopes before it is made, in one transaction, so that any number at once are counted one after
 * the other; answers null, or, when one of the scopes has to wait, until when, and counts nothing.
 */
export async function claimAttempt(
  client: PrismaClient,
  attempt: { slowings: readonly Slowing[]; now: Date },
): Promise<Date | null> {
  const { slowings, now } = attempt
  const scopes = slowings.map((slowing) => slowing.scope).sort()
  return client.$transaction(async (transaction) => {
    const rows = z.array(Row).parse(
      await transaction.$queryRaw`
        insert into sign_in_failures (scope, count, last_at, wait_until)
        select scope, 0, ${now}, ${now} from unnest(${scopes}::text[]) as named (scope) order by scope
        on conflict (scope) do update set count = sign_in_failures.count
        returning scope, count, last_at as "lastAt", wait_until as "waitUntil"`,
    )
    const next = slowings.map((slowing) => afterOneMore({ slowing, row: find(rows, slowing.scope), now }))
    const waits = next.flatMap((one) => (one.waitsFor === null ? [] : [one.waitsFor.getTime()]))
    if (waits.length > 0) return new Date(Math.max(...waits))
    for (const { scope, count, waitUntil } of next)
      await transaction.signInFailure.update({ where: { scope }, data: { count, lastAt: now, waitUntil } })
    return null
  }, queueing)
}

/** The attempt was right after all: what it had added is taken back, and those in a row are over. */
export async function forgiveAttempt(
  client: PrismaClient | Prisma.TransactionClient,
  forgiven: { over: readonly string[]; oneLess: readonly string[] },
): Promise<void> {
  await client.signInFailure.deleteMany({ where: { scope: { in: [...forgiven.over] } } })
  await client.signInFailure.updateMany({
    where: { scope: { in: [...forgiven.oneLess] }, count: { gt: 0 } },
    data: { count: { decrement: 1 } },
  })
}

function find(rows: readonly z.infer<typeof Row>[], scope: string): z.infer<typeof Row> {
  const row = rows.find((one) => one.scope === scope)
  if (!row) throw new Error("an attempt was counted in no row")
  return row
}

function afterOneMore(of: { slowing: Slowing; row: z.infer<typeof Row>; now: Date }) {
  const { slowing, row, now } = of
  const { scope, free, mostWaitMs, ceiling, forgetAfterMs } = slowing
  const forgottenAt = row.lastAt.getTime() + forgetAfterMs
  const before = now.getTime() >= forgottenAt ? 0 : row.count
  const count = before + 1
  const waitMs = count < free ? 0 : Math.min(mostWaitMs, 1000 * 2 ** Math.min(count - free, 20))
  const waitUntil = new Date(now.getTime() + waitMs)
  if (before >= ceiling) return { scope, count, waitUntil, waitsFor: new Date(forgottenAt) }
  const isWaiting = before > 0 && row.waitUntil > now
  return { scope, count, waitUntil, waitsFor: isWaiting ? row.waitUntil : null }
}
