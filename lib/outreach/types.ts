import type { ReasonId } from "../domain/reason-ids"
import type { SettingKey } from "../domain/settings"
import type { FactKind } from "../measures/fact-kind"
import type { Actor } from "../measures/types"

/** How soon a person is to be contacted, most pressing first. Urgent people are no row of a telephone list. */
export const tiers = ["urgent", "soon", "routine", "ahead"] as const

export type Tier = (typeof tiers)[number]

/** What the numbers of a reason are: a pair of pressures, one amount with its unit, or none. */
export type ReasonValue =
  | { readonly kind: "pressure"; readonly systolic: string; readonly diastolic: string }
  | {
      readonly kind: "amount"
      readonly amount: string
      readonly comparator: string | null
      readonly unit: string
    }
  | { readonly kind: "none" }

/**
 * Why a person is to be contacted. Its SQL is over rows of one day: `p` of `patient_month`, `s` of `patient_standings`,
 * `r` of `recent_facts_at` and `t`, the settings. Constant text, no interpolation.
 */
export type Reason = {
  readonly id: ReasonId
  readonly tier: Tier
  readonly name: string
  /** The same for a letter: plain words, no value and no diagnosis. */
  readonly patientWords: string
  /** The fact that takes it off. */
  readonly endsWith: string
  readonly actor: Actor
  readonly sql: string
  /** The day of the fact behind it, or null where the reason is that there is none. */
  readonly factOn: string
  readonly value: ReasonValue
  /** The facts whose rows show the day and the value. */
  readonly restsOn: readonly FactKind[]
  /** For a reason that lies ahead: the first day on which the fact is out of its window. */
  readonly fallsOutOn: string | null
  readonly settings: readonly SettingKey[]
  readonly source: string
}
