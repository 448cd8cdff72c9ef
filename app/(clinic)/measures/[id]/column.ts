import type { ReactNode } from "react"
import type { MeasurePerson } from "../../../../lib/questions/measure-people"

/** One column of a list of people. `label` stands before the value on a phone, `absent` where there is none. */
export type Column = {
  head: string
  unit?: string
  label?: string
  isNumber?: boolean
  /** A text that takes the room there is. */
  isLong?: boolean
  /** A name that may take two lines. */
  isFolding?: boolean
  absent?: string
  cell: (person: MeasurePerson) => ReactNode
}
