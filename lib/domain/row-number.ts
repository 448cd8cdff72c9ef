import { z } from "zod"

/** The most that an integer column of Postgres holds. */
const most = 2 ** 31 - 1

/** The number of an import, a line or another row, as an address or a form writes it. */
export const RowNumber = z.coerce.number().int().positive().max(most)
