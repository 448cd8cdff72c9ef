import { z } from "zod"

export const KidneyProduct = z.object({
  concern: z.enum(["potassium", "oxalate", "contraindicated", "mixed", "pressure", "figures"]),
  product: z.string(),
  /** Other names under which it is sold, and examples. */
  also: z.string().nullable(),
  why: z.string(),
  source: z.string(),
  /** What of the source was read, and what is from memory. */
  read: z.string(),
})

export type KidneyProduct = z.infer<typeof KidneyProduct>

/** The supplements and herbal products that are of concern in kidney disease, by name. */
export const kidneyProducts = {
  sql: `select k.concern, k.product, k.also, k.why, k.source, k.read
from kidney_products as k
order by k.product`,
  Row: KidneyProduct,
} as const
