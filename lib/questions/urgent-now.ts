import { urgentReasons } from "../outreach/pressing-reasons"
import { heldReasonsSql } from "../outreach/reason-sql"

/** A `with` entry: what is urgent about whom on `$as_of`, the running day; of a day that is over there is no row. */
export const urgentStep = `
urgent as materialized (
${heldReasonsSql(urgentReasons)}
)`
