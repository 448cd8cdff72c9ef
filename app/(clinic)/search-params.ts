import { z } from "zod"
import { hrefOf, single, type RawSearch } from "../_ui/href"

/** A month as it stands in an address; anything else is the running month. */
export const MonthParam = z
  .string()
  .regex(/^\d{4}-(0[1-9]|1[0-2])$/)
  .nullable()
  .catch(null)
  .default(null)

const MonthView = z.object({ month: MonthParam })

export type MonthView = z.infer<typeof MonthView>

export function parseMonthView(raw: RawSearch): MonthView {
  return MonthView.parse(single(raw))
}

export function monthHref(view: MonthView): string {
  return hrefOf("/", view)
}
