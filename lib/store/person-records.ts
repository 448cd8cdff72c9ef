import "server-only"
import { z } from "zod"
import type { Prisma } from "./generated/client"

/**
 * All records of the person to whom a record belongs, itself among them: merges are followed both ways, and one that names
 * itself, nobody, or closes a circle is no link (as lib/clinical/views/01_identities.sql has it).
 */
export async function recordsOfPerson(
  client: Prisma.TransactionClient,
  patientId: string,
): Promise<{ patientId: string; publicId: string }[]> {
  const rows = await client.$queryRaw`
    with recursive links as (
      select r.patient_id, r.merged_into
      from patient_records as r
      join patient_records as target on target.patient_id = r.merged_into and target.ended_at is null
      where r.ended_at is null
    ),
    walks as (
      select patient_id as start_id, merged_into as reached_id from links
      union
      select walks.start_id, links.merged_into from walks join links on links.patient_id = walks.reached_id
    ),
    sound_links as (
      select links.patient_id, links.merged_into from links
      where not exists (select from walks where walks.start_id = links.patient_id and walks.reached_id = links.patient_id)
    ),
    person as (
      select ${patientId}::text as patient_id
      union
      select case when sound_links.patient_id = person.patient_id then sound_links.merged_into else sound_links.patient_id end
      from person
      join sound_links on person.patient_id in (sound_links.patient_id, sound_links.merged_into)
    )
    select patients.patient_id as "patientId", patients.public_id::text as "publicId"
    from person join patients on patients.patient_id = person.patient_id
    order by patients.patient_id`
  return z.array(z.object({ patientId: z.string(), publicId: z.string() })).parse(rows)
}
