import { z } from "zod"
import { hrefOf, single, type RawSearch } from "../_ui/href"

/** A month as it stands in an address; anything else is the running month. */
export const MonthParam = z
  .string()
  .regex(/^\d{4}-(0[1-9]|1[0-2])$/)
  .nullable()
  .catch(null)
  .default(null)

/** A page of a list after the first as it stands in an address; anything else is the first. */
export const PageParam = z.coerce.number().int().min(2).max(10000).nullable().catch(null).default(null)

/** The rows of a page of so many, as a question asks for them. */
export function rowsOfPage(page: number | null, size: number): { limit: number; offset: number } {
  return { limit: size, offset: ((page ?? 1) - 1) * size }
}

const MonthView = z.object({ month: MonthParam })

export type MonthView = z.infer<typeof MonthView>

export function parseMonthView(raw: RawSearch): MonthView {
  return MonthView.parse(single(raw))
}

export function monthHref(view: MonthView): string {
  return hrefOf("/", view)
}
