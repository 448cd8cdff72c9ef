import { z } from "zod"

/** The longest text of a note, and of the reason for a baseline. */
export const longestNote = 200

/** A change in practice on a day, drawn on the chart of a measure or, where none is named, of all. */
export type ChartNote = {
  id: number
  measureId: string | null
  onDay: string
  text: string
  madeBy: string
  madeAt: Date
}

/** The year that somebody chose as a measure's baseline, by its first month, with the reason. */
export type ChosenBaseline = {
  id: number
  measureId: string
  fromMonth: string
  reason: string
  madeBy: string
  /** The day it was set, on the clinic's clock. */
  madeOn: string
}

/** A calendar month as text, `2026-01`. */
export const PlainMonth = z.string().regex(/^\d{4}-(0[1-9]|1[0-2])$/, "is not a month like 2026-01")
