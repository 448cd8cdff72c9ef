import { z } from "zod"

export const DrugText = z.object({
  /** The key under which a person's mapping is kept. */
  normalised: z.string(),
  /** The spellings that come down to it. */
  texts: z.array(z.string()),
  status: z.enum(["unmapped", "part not recognised", "disagrees"]),
  orders: z.number().int(),
  patients: z.number().int(),
  ingredients: z.array(z.string()),
  unknown_words: z.array(z.string()),
})

export type DrugText = z.infer<typeof DrugText>

/**
 * The drug texts that ask for a person: nothing or not all of them was recognised, or code and text disagree. Those that
 * touch most people first. Lists: a text's spellings and words belong to it.
 */
export const unreadDrugTexts = {
  sql: `select
  t.normalised,
  list_sort(list(distinct t.text)) as texts,
  case
    when bool_or(t.status = 'unmapped') then 'unmapped'
    when bool_or(t.status = 'part not recognised') then 'part not recognised'
    else 'disagrees'
  end as status,
  cast(sum(t.orders) as integer) as orders,
  cast(max(t.patients) as integer) as patients,
  list_sort(list_distinct(flatten(list(t.ingredients)))) as ingredients,
  list_sort(list_distinct(flatten(list(t.unknown_words)))) as unknown_words
from drug_texts as t
where t.status in ('unmapped', 'part not recognised', 'disagrees')
group by t.normalised
order by patients desc, orders desc, t.normalised`,
  Row: DrugText,
} as const

export const DrugIngredient = z.object({ ingredient: z.string() })

/** Every ingredient a text can be mapped to. */
export const drugIngredients = {
  sql: "select i.ingredient from drug_ingredients as i order by i.ingredient",
  Row: DrugIngredient,
} as const
