import "server-only"
import { Prisma } from "./generated/client"

/** Of a line `e` of history that nobody took it back: what counts attempts asks for it. */
export const inForce = Prisma.sql`not exists (select from outreach_events as u where u.undoes_id = e.id)`

/**
 * Whether a letter is next for the case `c`, by the clinic's rule: so many attempts by so many channels since it was opened
 * last, and no letter yet. The same as `nextStep` says of those attempts.
 */
export function isLetterDue(rule: { attempts: number; channels: number }): Prisma.Sql {
  return Prisma.sql`(
    select count(*) filter (where e.channel <> 'letter') >= ${rule.attempts}::int
      and count(distinct e.channel) filter (where e.channel <> 'letter') >= ${rule.channels}::int
      and count(*) filter (where e.channel = 'letter') = 0
    from outreach_events as e
    where e.case_id = c.id and e.kind = 'attempt' and e.round = c.round and ${inForce})`
}
