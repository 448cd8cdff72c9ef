import "server-only"
import { redirect } from "next/navigation"
import { z } from "zod"
import type { Caller } from "../../lib/access/caller"
import { sessionLimits } from "../../lib/access/session-limits"

/** Where the proof of identity leads back to; nothing else that an address names is followed. */
const provenPlaces = {
  account: "/account",
  audit: "/audit",
  emergencies: "/emergencies",
  imports: "/imports",
  letters: "/outreach/letters",
  month: "/",
  outreach: "/outreach",
  users: "/users",
  visits: "/outreach/visits",
} as const

type ProvenPlace = keyof typeof provenPlaces

/** Whether someone has lately shown who they are; the invented people of the demo have nothing to show it with. */
export function isProven(caller: Caller, now: Date): boolean {
  return caller.isDemo || now.getTime() - caller.session.provenAt.getTime() < sessionLimits.provenMs
}

/** What is delicate asks who it is once more when the last proof is too old. */
export function requireProven(caller: Caller, place: Place): void {
  if (!isProven(caller, new Date())) redirect(proveHref(place))
}

/** Whether that is recent enough for taking lists of people out. */
export function isProvenForLists(caller: Caller, now: Date): boolean {
  return caller.isDemo || now.getTime() - caller.session.provenAt.getTime() < sessionLimits.listsProvenMs
}

/** A screen of the list, the one of a person's record, or the one of a measure. */
export type Place = ProvenPlace | { recordOf: string } | { measure: string }

export function proveHref(place: Place): string {
  if (typeof place === "string") return `/prove?to=${place}`
  return `/prove?to=${"recordOf" in place ? `record.${place.recordOf}` : `measure.${place.measure}`}`
}

/** The word of a place as an address may say it; any other is the own account. */
export function placeOf(word: unknown): string {
  const isPlace =
    isScreen(word) || RecordPlace.safeParse(word).success || MeasurePlace.safeParse(word).success
  return isPlace ? String(word) : "account"
}

/** Where the word of a place leads. */
export function placeHref(word: unknown): string {
  const recordOf = RecordPlace.safeParse(word)
  if (recordOf.success) return `/patients/${recordOf.data}/record`
  const measure = MeasurePlace.safeParse(word)
  if (measure.success) return `/measures/${measure.data}`
  return provenPlaces[isScreen(word) ? word : "account"]
}

function isScreen(word: unknown): word is ProvenPlace {
  return typeof word === "string" && Object.hasOwn(provenPlaces, word)
}

const RecordPlace = z
  .string()
  .startsWith("record.")
  .transform((word) => word.slice("record.".length))
  .pipe(z.uuid())

const MeasurePlace = z
  .string()
  .regex(/^measure\.[a-z0-9-]{1,80}$/)
  .transform((word) => word.slice("measure.".length))
