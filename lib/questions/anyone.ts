import { z } from "zod"

const Anyone = z.object({ is_anyone: z.boolean() })

/** Whether any person has been brought in, in the panel of some month or not. */
export const anyone = { sql: "select count(*) > 0 as is_anyone from people", Row: Anyone } as const
