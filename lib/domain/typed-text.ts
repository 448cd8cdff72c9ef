import { z } from "zod"

/** No person types these, Postgres keeps no NUL, and a log or a file would be led astray by the others. */
const control = /[\0-\x08\x0b\x0c\x0e-\x1f\x7f]/

/** A text as somebody typed it: without control characters but tabs and line breaks. */
export const TypedText = z.string().refine((text) => !control.test(text), "holds a control character")
