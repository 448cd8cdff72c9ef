import { z } from "zod"
import { hrefOf, single, type RawSearch } from "../../_ui/href"
import { TypedText } from "../../../lib/domain/typed-text"
import type { Standing } from "../../../lib/domain/standings"
import { changeCauses, changeKinds } from "../../../lib/domain/changes"
import { MonthParam, PageParam } from "../search-params"

const standingParams = ["counted", "met", "not-met", "unknown", "exception", "excluded", "outside"] as const

type StandingParam = (typeof standingParams)[number]

/** Whom a list holds: those of one standing, or all whom the rate counts. */
export type ListedStanding = Standing | "counted"

const narrow = TypedText.max(200).nullable().catch(null).default(null)

/** One measure as an address tells it; null is the default and is left out. `since` is the earlier month of the change (null: the month before). A group but the age may be empty: not assigned. */
const MeasureView = z.object({
  month: MonthParam,
  standing: z.enum(standingParams).nullable().catch(null).default(null),
  change: z.enum(changeKinds).nullable().catch(null).default(null),
  cause: z.enum(changeCauses).nullable().catch(null).default(null),
  since: MonthParam,
  detail: narrow,
  reason: narrow,
  clinician: narrow,
  site: narrow,
  sex: narrow,
  age: narrow,
  language: narrow,
  race: narrow,
  ethnicity: narrow,
  series: narrow,
  page: PageParam,
})

export type MeasureView = z.infer<typeof MeasureView>

export function parseMeasureView(raw: RawSearch): MeasureView {
  return MeasureView.parse(single(raw))
}

/** The address of a measure's list of people; what is not said is the default. */
export function measureHref(id: string, view: Partial<MeasureView>, anchor?: "people"): string {
  const { month = null, since = null, standing = null, change = null, cause = null } = view
  const { detail = null, reason = null } = view
  const { clinician = null, site = null, sex = null, age = null, language = null } = view
  const { race = null, ethnicity = null, series = null, page = null } = view
  const narrowed = { detail, reason, clinician, site, sex, age, language, race, ethnicity, series, page }
  return `${hrefOf(`/measures/${id}`, { month, since, standing, change, cause, ...narrowed })}${anchor ? `#${anchor}` : ""}`
}

export function standingParam(standing: ListedStanding): StandingParam {
  return standing === "not met" ? "not-met" : standing
}

export function standingOf(param: StandingParam): ListedStanding {
  return param === "not-met" ? "not met" : param
}
