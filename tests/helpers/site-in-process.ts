import path from "node:path"
import { vi } from "vitest"
import type { Role } from "../../lib/access/roles"
import { runImport } from "../../lib/import/run"
import { refresh } from "../../lib/jobs/refresh"
import { siteKey } from "../../lib/store/secrets"
import { beginSession } from "../../lib/store/sessions"
import { proposeSeed } from "../../lib/auth/second-factor"
import { seal } from "../../lib/auth/seal"
import { writeDemoClinic } from "../../seed/write-demo-clinic"
import { sent } from "./next-stand-ins"
import { openStore, type TestStore } from "./open-store"
import { temporaryFolder } from "./temporary-folder"

export type SiteInProcess = {
  store: TestStore
  dataDir: string
  /** Signs somebody with a role in for the requests to come; answers who they are. */
  signIn: (
    role: Role | "nobody",
    stage?: "full" | "factor",
  ) => Promise<{ userId: string; sealedSeed: string }>
  close: () => Promise<void>
}

export const ownHeaders = {
  host: "localhost:3000",
  origin: "http://localhost:3000",
  "sec-fetch-site": "same-origin",
}

/**
 * A clinic with its record store and snapshot, both real, for calling routes and actions without a server: the framework's own
 * functions are stood in for by the test file, the processes an action would start are not started.
 */
export async function openSiteInProcess(): Promise<SiteInProcess> {
  const store = await openStore()
  const scratch = temporaryFolder()
  const dataDir = path.join(scratch.folder, "data")
  vi.stubEnv("DATABASE_URL", store.url)
  vi.stubEnv("FILTRATE_DATA", dataDir)
  vi.stubEnv("FILTRATE_EXPORTS_PER_HOUR", "100000000")
  vi.stubEnv("__NEXT_EXPERIMENTAL_AUTH_INTERRUPTS", "true")
  await fill(store, scratch.folder, dataDir)
  return {
    store,
    dataDir,
    async signIn(role, stage = "full") {
      sent.headers = new Headers({ ...ownHeaders, "next-action": "an action" })
      sent.cookies.clear()
      const userName = `${role}-${stage}`
      const shape = { name: "Test Person", roles: role === "nobody" ? [] : [role], passwordHash: null }
      const user = await store.prisma.user.upsert({
        where: { userName },
        create: { userName, ...shape },
        update: {},
      })
      const about = { userId: user.id, method: "password", stage, agent: "test", address: "" } as const
      if (role !== "nobody")
        sent.cookies.set("filtrate", await beginSession(store.prisma, { ...about, now: new Date() }))
      return { userId: user.id, sealedSeed: proposeSeed(siteKey(dataDir), user.id).sealed }
    },
    async close() {
      await globalThis.filtrateStore?.$disconnect()
      await store.close()
      scratch.remove()
      vi.unstubAllEnvs()
    },
  }
}

async function fill(store: TestStore, folder: string, dataDir: string): Promise<void> {
  await store.prisma.clinic.create({ data: { id: 1, name: "Kidney clinic", timeZone: "UTC" } })
  const location = path.join(folder, "extract")
  writeDemoClinic({ folder: location, patients: 25, seed: 3, through: "2025-09-17" })
  const now = new Date("2025-10-05T12:00:00Z")
  await runImport({
    ...{ databaseUrl: store.url, dataDir, location, now, timeZone: "UTC" },
    ...{ isFull: false, isDryRun: false, isAccepted: true, say: () => {} },
  })
  await refresh({ databaseUrl: store.url, dataDir, onProgress: () => {} })
}

/** Gives somebody a second factor whose seed nobody knows. */
export async function giveFactor(site: SiteInProcess, userId: string): Promise<void> {
  const sealed = seal(siteKey(site.dataDir), new Uint8Array(20), `factor of ${userId}`)
  await site.store.prisma.user.update({ where: { id: userId }, data: { totpSecret: sealed } })
}
