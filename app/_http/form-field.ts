import type { z } from "zod"
import { AppError } from "../../lib/errors"

/** What a form of this site always holds, read by its schema. Throws AppError("bad-request") where a form does not. */
export function formField<Value>(schema: z.ZodType<Value>, given: unknown): Value {
  const read = schema.safeParse(given)
  if (read.success) return read.data
  throw new AppError("bad-request", "The form is none of this site.")
}
