import "server-only"
import { redirect } from "next/navigation"
import { z } from "zod"
import type { Caller } from "../../lib/access/caller"
import { sessionLimits } from "../../lib/access/session-limits"

/** Where the proof of identity leads back to; nothing else that an address names is followed. */
const provenPlaces = { account: "/account", users: "/users" } as const

type ProvenPlace = keyof typeof provenPlaces

/** Whether someone has lately shown who they are; the invented people of the demo have nothing to show it with. */
export function isProven(caller: Caller, now: Date): boolean {
  return caller.isDemo || now.getTime() - caller.session.provenAt.getTime() < sessionLimits.provenMs
}

/** What is delicate asks who it is once more when the last proof is too old. */
export function requireProven(caller: Caller, place: Place): void {
  if (!isProven(caller, new Date())) redirect(proveHref(place))
}

/** A screen of the list, or the one of a person's record. */
type Place = ProvenPlace | { recordOf: string }

export function proveHref(place: Place): string {
  return `/prove?to=${typeof place === "string" ? place : `record.${place.recordOf}`}`
}

/** The word of a place as an address may say it; any other is the own account. */
export function placeOf(word: unknown): string {
  if (word === "users" || RecordPlace.safeParse(word).success) return String(word)
  return "account"
}

/** Where the word of a place leads. */
export function placeHref(word: unknown): string {
  const recordOf = RecordPlace.safeParse(word)
  if (recordOf.success) return `/patients/${recordOf.data}/record`
  return provenPlaces[word === "users" ? "users" : "account"]
}

const RecordPlace = z
  .string()
  .startsWith("record.")
  .transform((word) => word.slice("record.".length))
  .pipe(z.uuid())
