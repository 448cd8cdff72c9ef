import "server-only"
import { userInfo } from "node:os"
import type { Caller } from "../access/caller"

/** Who does something, as the audit log names them. */
export type Actor = {
  /** The account's id; "command:" and the operating-system user; "nobody" while nobody is signed in. */
  actor: string
  actorName: string
  roles: readonly string[]
  session: string | null
  origin: "site" | "command"
  address: string | null
}

/** Someone who is signed in. */
export function actorOf(caller: Caller): Actor {
  const { userId, name, roles, session } = caller
  return {
    ...{ actor: userId, actorName: name, roles, origin: "site" },
    ...{ session: session.id, address: session.address === "" ? null : session.address },
  }
}

/** The user of the operating system who runs a command. */
export function commandActor(): Actor {
  const { username } = userInfo()
  return {
    ...{ actor: `command:${username}`, actorName: username, roles: [], origin: "command" },
    ...{ session: null, address: null },
  }
}

/** Someone at the site who is not signed in, under the name they gave if they gave one. */
export function strangerActor(address: string | null, actorName = "nobody"): Actor {
  return { actor: "nobody", actorName, roles: [], session: null, origin: "site", address }
}
