import { z } from "zod"

const text = z.string().nullable()
const number = z.number().nullable()

/** Who a row of a list of people is about: the part of its shape that every such list has. */
export const listPerson = {
  public_id: z.string(),
  given_name: text,
  family_name: text,
  age_years: z.number().int(),
  site: text,
  clinician_name: text,
}

/** The columns of `listPerson`, of a row `p` of `patient_month`. */
export const listPersonColumns =
  "p.public_id, p.given_name, p.family_name, p.age_years, p.site, p.clinician_name"

/**
 * A row of a list of people: how many the list has on all its pages, who it is about, and the pressure that represents them, in mmHg,
 * with the target of where it was taken; null where not measured.
 */
export const listRow = {
  total: z.number().int(),
  ...listPerson,
  systolic: number,
  diastolic: number,
  systolic_limit: number,
  diastolic_limit: number,
  bp_source: z.enum(["office", "home", "ambulatory"]).nullable(),
  bp_on: text,
  is_severe: z.boolean(),
}

/** How many the list has on all its pages. */
export const listTotal = "cast(count(*) over () as integer) as total"

/** The columns of `listRow`, of a row `p` of `patient_month`. */
export const listColumns = `${listTotal},
  ${listPersonColumns},
  p.systolic, p.diastolic, p.systolic_limit, p.diastolic_limit, p.bp_source, p.bp_on,
  coalesce(p.category = 'severe', false) as is_severe`

/** The last terms of the order of a list: by name, and two of one name always in the same order. */
export const byName = "lower(p.family_name), lower(p.given_name), p.patient_id"

/** The page asked for: parameters `$limit` and `$offset`. */
export const listPage = "limit cast($limit as integer) offset cast($offset as integer)"
