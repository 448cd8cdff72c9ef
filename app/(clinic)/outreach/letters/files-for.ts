import "server-only"
import type { Caller } from "../../../../lib/access/caller"
import { may } from "../../../../lib/access/permissions"
import { isProvenForLists, proveHref } from "../../../_http/prove"

/** Whether somebody takes files here, past a proof of identity at an address, or not at all. */
export function filesFor(caller: Caller, now: Date): "here" | { proveAt: string } | null {
  if (!may(caller, "people.export")) return null
  return isProvenForLists(caller, now) ? "here" : { proveAt: proveHref("letters") }
}
