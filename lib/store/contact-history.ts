import "server-only"
import { z } from "zod"
import type { Prisma } from "./generated/client"

const columns = [
  ...["on", "kind", "by", "from_state", "to_state", "why", "channel", "outcome", "until", "note"],
  ...["reasons_begun", "reasons_ended", "taken_back"],
] as const

/** What was done about a person, line by line as a file of that name has it. */
export type PersonHistory = {
  name: string
  columns: readonly string[]
  rows: readonly (readonly (string | null)[])[]
}

const Row = z.object({ cells: z.array(z.string().nullable()) })

/** The history of the cases of these records, earliest first: who tried what when, what came of it, and what the data did. */
export async function readContactHistory(
  client: Prisma.TransactionClient,
  patientIds: readonly string[],
): Promise<PersonHistory> {
  const rows = await client.$queryRaw`
    select array[
      e.on_day::text, e.kind, e.by_name, e.from_state, e.to_state, e.why, e.channel, e.outcome, e.until_on::text, e.note,
      (select string_agg(r.one ->> 'reason', '; ') from jsonb_array_elements(e.began) as r (one)),
      (select string_agg(r.one ->> 'reason', '; ') from jsonb_array_elements(e.ended) as r (one)),
      (select 'yes' from outreach_events as u where u.undoes_id = e.id)
    ] as cells
    from outreach_events as e
    where e.patient_id = any (${[...patientIds]}::text[])
    order by e.id`
  return {
    ...{ name: "contact-history", columns },
    rows: z
      .array(Row)
      .parse(rows)
      .map((row) => row.cells),
  }
}
