import { fromCategory, rasBlockerInAlbuminuria } from "../measures/ras-blocker-in-albuminuria"

export const protectionGroupIds = ["never-tried", "stopped", "raised-once", "documented-reason"] as const

export type ProtectionGroupId = (typeof protectionGroupIds)[number]

/** One group of those with albuminuria and no ACE inhibitor or ARB: a condition over `patient_month` and `patient_standings`. */
export type ProtectionGroup = {
  readonly id: ProtectionGroupId
  readonly words: string
  readonly sql: string
}

/** The same people as the measure would leave in, had the albuminuria been confirmed. */
const notExcluded = rasBlockerInAlbuminuria.excluded
  .map(({ sql }) => `not coalesce((${sql}), false)`)
  .join(" and ")

/** The groups in the order of the screen. The first, second and last are those whom the measure counts as not met or an exception. */
export const protectionGroups: readonly ProtectionGroup[] = [
  {
    id: "never-tried",
    words: "never tried",
    sql: "s.ras_blocker_in_albuminuria = 'not met' and p.ras_history = 'never'",
  },
  {
    id: "stopped",
    words: "stopped",
    sql: "s.ras_blocker_in_albuminuria = 'not met' and p.ras_history = 'stopped'",
  },
  {
    id: "raised-once",
    words: "raised once: repeat the urine first",
    sql: `p.albuminuria = 'raised once' and (${fromCategory.sql}) and ${notExcluded} and not p.on_ras_blocker`,
  },
  {
    id: "documented-reason",
    words: "with a documented reason",
    sql: "s.ras_blocker_in_albuminuria = 'exception'",
  },
]

/** The group of a row; null for whoever is in none. */
export const protectionGroupSql = `case
    ${protectionGroups.map(({ id, sql }) => `when ${sql} then '${id}'`).join("\n    ")}
  end`
