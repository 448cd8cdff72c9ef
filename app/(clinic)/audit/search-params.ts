import { z } from "zod"
import { isPlainDate } from "../../../lib/domain/plain-date"
import { auditOutcomes, isAuditAction } from "../../../lib/store/audit-actions"
import { hrefOf, single, type RawSearch } from "../../_ui/href"

// Postgres knows neither the year 0 nor a text with a zero in it.
const day = z
  .string()
  .refine((text) => isPlainDate(text) && text >= "1900-01-01")
  .nullable()
  .catch(null)
  .default(null)

const AuditView = z.object({
  from: day,
  to: day,
  actor: z
    .string()
    .min(1)
    .max(200)
    .refine((text) => !text.includes("\0"))
    .nullable()
    .catch(null)
    .default(null),
  action: z.string().refine(isAuditAction).nullable().catch(null).default(null),
  outcome: z.enum(auditOutcomes).nullable().catch(null).default(null),
  patient: z.uuid().nullable().catch(null).default(null),
  /** The number of the entry before which a page begins; null is the latest. */
  before: z.coerce.number().int().positive().nullable().catch(null).default(null),
})

/** The view of the audit log: days, who, what, how it ended, about which opaque id. */
export type AuditView = z.infer<typeof AuditView>

export function parseAuditView(raw: RawSearch): AuditView {
  return AuditView.parse(single(raw))
}

export const wholeLog: AuditView = parseAuditView({})

export function auditHref(view: Partial<AuditView>): string {
  return hrefOf("/audit", { ...wholeLog, ...view })
}

/** The same entries as a file, from the latest on. */
export function auditFileHref(view: AuditView): string {
  return hrefOf("/api/audit", { ...view, before: null })
}

export function isFiltered(view: AuditView): boolean {
  return Object.entries(view).some(([name, value]) => name !== "before" && value !== null)
}
