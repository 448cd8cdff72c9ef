import { z } from "zod"
import type { ClosedFigures } from "./closed-figures"
import type { Settings } from "./settings"

/** What a person said a drug text means, as a closing keeps it. */
export const KeptMapping = z.object({
  text: z.string(),
  ingredients: z.array(z.string()),
  isIgnored: z.boolean(),
})

export type KeptMapping = z.infer<typeof KeptMapping>

/** A month that was closed: everything its figures follow from beside the facts known then, and the figures themselves. */
export type ClosedMonth = {
  id: number
  /** The last day of the month. */
  asOf: string
  /** The instant as of which its facts are known. */
  closedAt: Date
  closedBy: string
  /** The number of the last import there was then: a later one may have begun, by its own clock, before the closing. */
  throughImport: number
  timeZone: string
  settings: Settings
  mappings: readonly KeptMapping[]
  /** A hash of the definitions the figures were computed by. */
  definitions: string
  figures: ClosedFigures
}
