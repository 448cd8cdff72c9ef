import { z } from "zod"
import { reasonIds } from "../../../lib/domain/reason-ids"
import { hrefOf, single, type RawSearch } from "../../_ui/href"

/** The lists of the day: whom to contact with the urgent before them, and those that are left out of it for now. */
export const shownLists = ["today", "urgent", "waiting", "booked", "closed", "closed-itself"] as const

export type ShownList = (typeof shownLists)[number]

// Postgres knows no text with a zero in it.
const word = z
  .string()
  .min(1)
  .max(200)
  .refine((text) => !text.includes("\0"))
  .nullable()
  .catch(null)
  .default(null)

const OutreachView = z.object({
  show: z.enum(shownLists).catch("today").default("today"),
  reason: z.enum(reasonIds).nullable().catch(null).default(null),
  site: word,
  clinician: word,
  whose: z
    .union([z.enum(["mine", "nobody"]), z.uuid()])
    .nullable()
    .catch(null)
    .default(null),
  language: word,
  /** The place after which a page goes on; null is the first page. */
  after: z.coerce.number().int().positive().max(2_000_000_000).nullable().catch(null).default(null),
})

/** The view of the list: which part of the day's cases, narrowed by what. */
export type OutreachView = z.infer<typeof OutreachView>

export function parseOutreachView(raw: RawSearch): OutreachView {
  return OutreachView.parse(single(raw))
}

export const wholeDay: OutreachView = parseOutreachView({})

export function outreachHref(view: Partial<OutreachView>): string {
  const { show, ...rest } = { ...wholeDay, ...view }
  return hrefOf("/outreach", { show: show === "today" ? null : show, ...rest })
}

/** The kinds of file that the list comes as. */
export const listFormats = ["csv", "xlsx"] as const

/** The address of the whole list of a view as a file. */
export function outreachFileHref(view: OutreachView, format: (typeof listFormats)[number]): string {
  const { show, after: _, ...filters } = view
  return hrefOf("/api/outreach/cases", { format, show: show === "today" ? null : show, ...filters })
}

export function isNarrowed(view: OutreachView): boolean {
  const { reason, site, clinician, whose, language } = view
  return [reason, site, clinician, whose, language].some((filter) => filter !== null)
}

/** The part of an address that a saved view keeps: which list, and by what it is narrowed. */
export function searchOf(view: OutreachView): string {
  return outreachHref({ ...view, after: null }).replace(/^\/outreach\??/, "")
}

export function viewOf(search: string): OutreachView {
  return parseOutreachView(Object.fromEntries(new URLSearchParams(search)))
}
