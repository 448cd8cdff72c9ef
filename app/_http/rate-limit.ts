import "server-only"
import type { Caller } from "../../lib/access/caller"
import { AppError } from "../../lib/errors"
import { turns } from "../../lib/front/turns.mjs"
import { readReach } from "../../lib/reach"

const minuteMs = 60_000

type Turns = ReturnType<typeof turns>

declare global {
  var filtrateTurns: { exports: Turns; tables: Turns } | undefined
}

/** How often one person may take people out of the site, and read the whole panel; shared by every bundle of the process. */
function limits(): { exports: Turns; tables: Turns } {
  globalThis.filtrateTurns ??= {
    exports: turns({ most: readReach().exportsPerHour, perMs: 60 * minuteMs }),
    tables: turns({ most: 60, perMs: minuteMs }),
  }
  return globalThis.filtrateTurns
}

/** Counts one file or table towards a person's limit. Throws AppError("too-many-requests") beyond it. */
export function takeTurn(kind: "exports" | "tables", caller: Caller): void {
  const retryAfterSeconds = limits()[kind].take(caller.userId, Date.now())
  if (retryAfterSeconds === 0) return
  const what = kind === "exports" ? "files" : "readings of the panel"
  const minutes = Math.ceil(retryAfterSeconds / 60)
  throw new AppError(
    "too-many-requests",
    `More ${what} than are given out in so short a time. The next is there in ${minutes} min.`,
    { retryAfterSeconds },
  )
}
