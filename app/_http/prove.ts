import "server-only"
import { redirect } from "next/navigation"
import type { Caller } from "../../lib/access/caller"
import { sessionLimits } from "../../lib/access/session-limits"

/** Where the proof of identity leads back to; nothing else that an address names is followed. */
export const provenPlaces = { account: "/account", users: "/users" } as const

export type ProvenPlace = keyof typeof provenPlaces

/** Whether someone has lately shown who they are; the invented people of the demo have nothing to show it with. */
export function isProven(caller: Caller, now: Date): boolean {
  return caller.isDemo || now.getTime() - caller.session.provenAt.getTime() < sessionLimits.provenMs
}

/** What is delicate asks who it is once more when the last proof is too old. */
export function requireProven(caller: Caller, place: ProvenPlace): void {
  if (!isProven(caller, new Date())) redirect(`/prove?to=${place}`)
}

export function placeOf(word: unknown): ProvenPlace {
  return word === "users" ? "users" : "account"
}
