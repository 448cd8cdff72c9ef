import { z } from "zod"
import { rasBlockerInAlbuminuria } from "../measures/ras-blocker-in-albuminuria"
import { protectionGroups } from "./protection-groups"

export const ProtectionCounts = z.object({
  people: z.number().int(),
  /** In the order of the groups. */
  grouped: z.array(z.number().int()).length(protectionGroups.length),
  /** How many are left out, by the reason shown first, in the order of the measure. */
  excluded: z.array(z.number().int()).length(rasBlockerInAlbuminuria.excluded.length),
  /** How many with confirmed albuminuria take one. */
  met: z.number().int(),
})

export type ProtectionCounts = z.infer<typeof ProtectionCounts>

const counted = (condition: string) => `cast(count(*) filter (where ${condition}) as integer)`

/**
 * How many have albuminuria and no ACE inhibitor or ARB on a day, by group, and who is left out of that. `$clinician_id` is
 * whose patients are counted; null is everybody's.
 */
export const protectionCounts = {
  sql: `select
  ${counted(protectionGroups.map(({ sql }) => `(${sql})`).join(" or "))} as people,
  [
    ${protectionGroups.map(({ sql }) => counted(sql)).join(",\n    ")}
  ] as grouped,
  [
    ${rasBlockerInAlbuminuria.excluded.map(({ words }) => counted(isFirstReason(words))).join(",\n    ")}
  ] as excluded,
  ${counted("s.ras_blocker_in_albuminuria = 'met'")} as met
from patient_month as p
join patient_standings as s on s.patient_id = p.patient_id and s.as_of = p.as_of
where p.as_of = cast($as_of as date)
  and (cast($clinician_id as varchar) is null or p.clinician_id = cast($clinician_id as varchar))`,
  Row: ProtectionCounts,
} as const

function isFirstReason(words: string): string {
  return `s.ras_blocker_in_albuminuria = 'excluded' and s.ras_blocker_in_albuminuria_reasons[1] = '${words}'`
}
