import "server-only"
import { z } from "zod"
import type { PersonHistory } from "./contact-history"
import type { Prisma } from "./generated/client"

const columns = [
  ...["made_on", "made_by", "topic", "kind", "reason", "note", "ends_on"],
  ...["undone_on", "undone_by", "replaced"],
] as const

const Row = z.object({ cells: z.array(z.string().nullable()) })

/** What clinicians decided about these records, earliest first, with what was taken back or replaced. */
export async function readDecisionHistory(
  client: Prisma.TransactionClient,
  patientIds: readonly string[],
): Promise<PersonHistory> {
  const rows = await client.$queryRaw`
    select array[
      d.made_on::text, d.made_by, d.topic, d.kind, d.reason, d.note, d.ends_on::text, d.undone_on::text, d.undone_by,
      case when d.replaced_by_id is not null then 'yes' end
    ] as cells
    from clinician_decisions as d
    where d.patient_id = any (${[...patientIds]}::text[])
    order by d.id`
  return {
    ...{ name: "decisions", columns },
    rows: z
      .array(Row)
      .parse(rows)
      .map((row) => row.cells),
  }
}
