import { cache } from "react"
import { ask, snapshotMeta } from "../_http/ask"
import { AppError } from "../../lib/errors"
import { anyone } from "../../lib/questions/anyone"

// A title is asked for before the page has sent away whoever is not signed in.
const nothingToShow = new Set<string>(["no-snapshot", "not-signed-in"])

/** The snapshot the screens read, or null while the clinic has none, and for nobody signed in; asked once a request. */
export const currentSnapshot = cache(async () => {
  try {
    return await snapshotMeta()
  } catch (error) {
    if (error instanceof AppError && nothingToShow.has(error.code)) return null
    throw error
  }
})

/** The same, and null too while nobody is in it: then a screen says how people get in. */
export const peopledSnapshot = cache(async () => {
  const snapshot = await currentSnapshot()
  if (snapshot === null) return null
  const [answer] = await ask(anyone)
  return answer?.is_anyone ? snapshot : null
})
