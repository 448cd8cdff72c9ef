import { cache } from "react"
import { store } from "../../lib/store/client"

/** The clinic's time zone, in which screens tell instants; asked once a request. */
export const clinicTimeZone = cache(async (): Promise<string> => {
  const clinic = await store().clinic.findUnique({ where: { id: 1 } })
  return clinic?.timeZone ?? "UTC"
})
