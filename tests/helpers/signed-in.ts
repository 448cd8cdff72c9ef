import type { Role } from "../../lib/access/roles"
import { openClient } from "../../lib/store/client"
import { openDatabase } from "../../lib/store/database"
import { beginSession } from "../../lib/store/sessions"
import { siteFolders } from "./filtrate"

/** The name of the sign-in's cookie on a site that only this machine is served. */
const cookieName = "filtrate"

/** Those who together may do everything; a test that is about one role asks for it. */
const everyRole: readonly Role[] = ["clinic-lead", "administrator"]

/** A session at the site of an address, as the browser sends it. */
export async function sessionCookie(
  url: string,
  roles: readonly Role[] = everyRole,
  name = "Test Person",
): Promise<string> {
  const { origin } = new URL(url)
  const dataDir = siteFolders.get(origin) ?? (await demoFolder(origin))
  return `${cookieName}=${await sessionToken(dataDir, { roles, name })}`
}

/** Asks a site as someone who is signed in. */
export async function fetchSignedIn(
  url: string,
  init: RequestInit = {},
  roles = everyRole,
): Promise<Response> {
  const headers = new Headers(init.headers)
  headers.set("cookie", await sessionCookie(url, roles))
  return fetch(url, { ...init, headers })
}

async function demoFolder(origin: string): Promise<string> {
  const { inject } = await import("vitest")
  if (inject("demoUrl") === origin) return inject("demoDataDir")
  throw new Error(`no site of this run is at ${origin}`)
}

const tokens = new Map<string, Promise<string>>()

type Somebody = { roles: readonly Role[]; name: string }

/**
 * A session of someone with these roles, begun in the store of a running site; its token. One a site, set of roles and name.
 * Signing in by the screens is tested where it is the matter.
 */
function sessionToken(dataDir: string, who: Somebody): Promise<string> {
  const key = `${dataDir} ${userNameOf(who)}`
  const known = tokens.get(key) ?? begin(dataDir, who)
  tokens.set(key, known)
  return known
}

function userNameOf({ roles, name }: Somebody): string {
  return `${name} ${roles.join(" ")} ${process.pid}`.toLowerCase()
}

async function begin(dataDir: string, who: Somebody): Promise<string> {
  const database = await openDatabase({ environment: { ...bareEnvironment, dataDir } })
  const client = openClient(database.url)
  try {
    const userName = userNameOf(who)
    const user = await client.user.upsert({
      where: { userName },
      create: { userName, name: who.name, roles: [...who.roles] },
      update: {},
    })
    const about = { userId: user.id, method: "password", stage: "full", agent: "test", address: "" } as const
    return await beginSession(client, { ...about, now: new Date() })
  } finally {
    await client.$disconnect()
    await database.close()
  }
}

/** An environment that names nothing, for opening a store by its folder. */
export const bareEnvironment = {
  databaseUrl: undefined,
  isDemoWanted: false,
  origin: undefined,
  timeZone: undefined,
  port: 3000,
}
