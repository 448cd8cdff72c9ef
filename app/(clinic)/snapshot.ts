import { cache } from "react"
import { snapshotMeta } from "../../lib/engine/run"
import { AppError } from "../../lib/errors"

/** The snapshot the screens read, or null while the clinic has none; asked once a request. */
export const currentSnapshot = cache(async () => {
  try {
    return await snapshotMeta()
  } catch (error) {
    if (error instanceof AppError && error.code === "no-snapshot") return null
    throw error
  }
})
